"""Setting an excerpt's picture: which rows it has, how tall they are, and where a second of the clip stands."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.excerpt_picture.shown import ExcerptShown
from studio.drawing.excerpt_picture.words import COUNTED, RINGS, SECONDS, level_words, under_words
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import Line, plain, shortened
from studio.drawing.themes.theme import Theme

SIZE = (1600, 560)
"""Pixels of an excerpt's picture, whatever the canvas: a page is as wide for every episode."""

ACROSS = 160
"""Units of its width."""

MARGIN, ROW_GAP, HOOK_GAP, TICK, CROSSES, CLOSING = 3.0, 2.4, 0.9, 1.2, 3.2, 2.0
"""Units: around all, from row to row, from a bracket to its words, a tick of the axis, the row of clicks, and the
closing line after the wave."""

COLUMN = 2
"""Pixels of one column of the wave."""

TAIL = 0.27
"""How far letters hang under their baseline, in sizes of type."""


def columns(size: tuple[int, int] = SIZE) -> int:
    """How many columns a wave has in a picture of some size."""
    return round((ACROSS - 2 * MARGIN - CLOSING) * size[0] / ACROSS / COLUMN)


@dataclass(frozen=True)
class Named:
    """A stretch of the picture under a bracket, with its words, if there is room for any."""

    left: float
    right: float
    line: Line | None


class Setting:
    """Where everything stands in a picture of some size. Pixels from the top left. `unit` and `note` stand under the
    axis: what its numbers count, and what is not in the picture."""

    def __init__(self, shown: ExcerptShown, size: tuple[int, int], theme: Theme) -> None:
        self.shown, self.theme, self.u = shown, theme, size[0] / ACROSS
        self.small_size, self.title_size = (
            size_ * self.u / 8 for size_ in (theme.sizes.small, theme.sizes.label)
        )
        self.left, self.edge = MARGIN * self.u, size[0] - MARGIN * self.u
        self.right = self.edge - CLOSING * self.u
        self.levels = self.small(level_words(shown))
        free = self.edge - self.left - self.levels.width - ROW_GAP * self.u * bool(self.levels.pieces)
        self.title = shortened(shown.title, self.title_size, theme.weights.strong, free)
        self.unit = self.small(SECONDS)
        free = self.edge - self.left - self.unit.width - ROW_GAP * self.u
        lines = (self.small(words) for words in under_words(shown))
        self.note = next((line for line in lines if line.width <= free), self.small(""))
        self._rows(size[1])

    def small(self, words: str) -> Line:
        """A line of small print."""
        return plain(words, self.small_size, self.theme.weights.regular)

    def x(self, seconds: float) -> float:
        """Where a second of the clip stands."""
        shown = self.shown
        return self.left + (seconds - shown.start) / shown.length * (self.right - self.left)

    def _rows(self, height: int) -> None:
        """From the top: title; names that found no room below; passes; bar numbers; the wave; clicks; the axis and
        its numbers; what they count."""
        u, cap = self.u, CAP * self.small_size
        self.title_baseline = MARGIN * u + CAP * self.title_size
        at = self.title_baseline + TAIL * self.title_size + ROW_GAP * u / 2
        self.passes, outer = self._named()
        self.outer = {name: one for name, one in outer.items() if one.line}
        if self.outer:
            self.outer_baseline = at + cap
            at += cap + TAIL * self.small_size + ROW_GAP * u / 3
        if self.passes:
            self.bracket = at + u / 2
            self.names_baseline = self.bracket + HOOK_GAP * u + cap
            at = self.names_baseline + TAIL * self.small_size + ROW_GAP * u / 2
        if self.shown.bars:
            self.numbers_baseline = at + cap
            at += cap + ROW_GAP * u / 3
        self.top = at + u
        self.under_baseline = height - MARGIN * u
        self.axis_baseline = self.under_baseline - cap - TAIL * self.small_size - ROW_GAP * u / 4
        self.axis = self.axis_baseline - cap - ROW_GAP * u / 2 - TICK * u
        self.clicks = self.axis - CROSSES * u / 2
        self.bottom = self.axis - (CROSSES if self.shown.clicks else 1.0) * u
        self.middle, self.half = (self.top + self.bottom) / 2, (self.bottom - self.top) / 2

    def _named(self) -> tuple[tuple[Named, ...], dict[str, Named]]:
        """The stretches under brackets, and the count-in and the tail where their words are wider than they."""
        shown, inner, outer = self.shown, [], {}
        if shown.counted > shown.start:
            inner.append(self._under((COUNTED,), shown.start, shown.counted))
            if inner[-1].line is None:
                outer[COUNTED] = Named(self.left, self.right, self.small(COUNTED))
        named = [one for one in shown.passes if one.names]
        inner += [self._under(one.names, one.start, min(one.end, shown.rings)) for one in named]
        if shown.end > shown.rings:
            inner.append(self._under((RINGS,), shown.rings, shown.end))
            if inner[-1].line is None:
                outer[RINGS] = Named(self.left, self.right, self.small(RINGS))
        return tuple(inner), outer

    def _under(self, names: tuple[str, ...], start: float, end: float) -> Named:
        """A stretch with the longest of its names that fits between its hook and the next one."""
        left, right = self.x(start), self.x(end)
        room = right - left - 2 * HOOK_GAP * self.u
        lines = (self.small(name) for name in names)
        return Named(left, right, next((line for line in lines if line.width <= room), None))

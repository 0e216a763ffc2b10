"""The title of a segment on its ground, with a quiet line under it, in the row that callouts leave free for it."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.outlines import CAP, DESCENDER
from studio.drawing.lettering.type import balanced, plain, shortened, side, wrap
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import SMALLEST, Theme

TOP, BOTTOM = 7.5, 20.4
"""Units from the top of title-safe between which a title stands: under the row where the rough cut burns in its words,
over where callouts begin."""

LEADING = 1.15
"""From one line of a title to the next, in sizes of type."""

_MOST = 2
_LINE = 0.72  # size of the quiet line at most, in sizes of the title
_UNDER = 0.42  # from a title's baseline to the top of the quiet line, in sizes of the title
_SMALLER = 0.96


@dataclass(frozen=True)
class _Setting:
    """A title's lines at a size, and the size of the quiet line; in pixels."""

    size: float
    lines: tuple[str, ...]
    small: float

    def tall(self, line: str) -> float:
        head = self.size * (CAP + (len(self.lines) - 1) * LEADING) if self.lines else -_UNDER * self.size
        below = self.size * _UNDER + self.small * (CAP + DESCENDER) if line else self.size * DESCENDER
        return head + below


def title_on(sheet: Sheet, canvas: CanvasSize, theme: Theme, title: str, line: str) -> float:
    """A title and a quiet line under it; returns where their row ends, in pixels from the top."""
    found = _set(title, line, canvas, theme)
    at = side(title or line)
    edge = canvas.width * 0.05 + (canvas.lane if at == "right" else 0.0)
    baseline = canvas.height * 0.05 + TOP * canvas.unit + CAP * (found.size if found.lines else found.small)
    for words in found.lines:
        shown = shortened(words, found.size, theme.weights.strong, canvas.lane)
        sheet.type(shown, edge, baseline, theme.colours.ink, at)
        baseline += LEADING * found.size
    if found.lines:
        baseline += found.size * (_UNDER - LEADING) + found.small * CAP
    if line:
        shown = shortened(line, found.small, theme.weights.regular, canvas.lane)
        sheet.type(shown, edge, baseline, theme.colours.quiet, at)
    return canvas.height * 0.05 + BOTTOM * canvas.unit


def _set(title: str, line: str, canvas: CanvasSize, theme: Theme) -> _Setting:
    """As large as the theme has it, or as much smaller as it takes to stand in the row."""
    size, least = canvas.pixels(theme.sizes.title), canvas.pixels(SMALLEST)
    weight, label = theme.weights.strong, canvas.pixels(theme.sizes.label)
    while True:
        small = max(least, min(label, size * _LINE))
        lines = balanced(title, size, weight, canvas.lane) if title else ()
        found = _Setting(size, lines, small)
        wide = max((plain(words, size, weight).width for words in lines), default=0.0)
        low = found.tall(line) <= (BOTTOM - TOP) * canvas.unit
        if len(lines) <= _MOST and wide <= canvas.lane and low:
            return found
        if size <= least:
            return _Setting(size, _cut(wrap(title, size, weight, canvas.lane)), small)
        size = max(least, size * _SMALLER)


def _cut(lines: tuple[str, ...]) -> tuple[str, ...]:
    """The lines that there is room for; the last one says that there is more."""
    return lines if len(lines) <= _MOST else (*lines[: _MOST - 1], f"{lines[_MOST - 1]} …")

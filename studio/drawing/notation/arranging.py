"""Choosing how notation is set: how large, in how many systems, and how many of them on a page.

What does not fit at its best size is set smaller, as far as its words can still be read; then it is broken at
bar lines, into systems under one another where there is height, else into pages. Everything is worked out from
one long engraving of all bars, whose widths tell how much room each bar needs.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate, chain, pairwise

from studio.drawing.frame import PADDING
from studio.drawing.notation.engraving import Engraving, first_bar_is_pickup, systems_of, unbroken
from studio.drawing.notation.score_time import pages_of, score_time
from studio.drawing.notation.system import (
    Staff,
    chord_neighbours,
    label_neighbours,
    label_size,
    least_height,
    names_width,
    row_height,
    smallest_space,
    stand,
)
from studio.drawing.notation.zones import zones
from studio.drawing.themes.theme import Theme

SPACES = (3.2, 2.95, 2.75, 2.55, 2.35, 2.15, 2.0)
"""Units between two staff lines, from the size at which a little music is shown to the least."""

COMFORT = 1.3
"""How much wider than by nature one system is set where there is room: natural spacing is a page's."""

SMALL_SPACE, EACH_UNIT_TOO_TALL = 2.35, 0.1
"""What is taller than it should be is set smaller down to the first; its height then counts against its size."""

EACH_SYSTEM = 0.3
"""Of two ways that take as many pages, the one with more systems must be this much larger for each."""

TIGHTEST = 0.72
"""How much narrower than by nature a bar may be set that is alone in its system."""

_ABOUT = 0.9
"""A system on its own may be so much less tall than the strip of all bars tells, as notes make room for others."""


@dataclass(frozen=True)
class _Close:
    """Two words beside one another, as nature has it `apart` staff spaces; the second stands in bar `last`. What
    they need in pixels is `wide` for each pixel of type, and `gap`."""

    last: int
    apart: float
    wide: float
    gap: float

    def stretch(self, size: float, pixels: float) -> float:
        """How many times further apart they must be, in type of `size`, with `pixels` between staff lines."""
        return (self.wide * size + self.gap) / max(self.apart * pixels, 1e-6)


@dataclass(frozen=True)
class _Strip:
    """All bars in one long system: staff spaces before the first bar and of each bar, and of each bar the words
    that stand close, by the bar of the first of two."""

    engraving: Engraving
    lead: float
    bars: tuple[float, ...]
    close: tuple[tuple[_Close, ...], ...]


def arranged(content: Staff, width: int, height: float, room: float, theme: Theme) -> Staff | None:
    """The content set in systems for a picture `width` pixels wide; `height` pixels tall at most as far as that can
    be, `room` at the very most. None where a bar does not fit however it is set, with its words."""
    strip = _strip(content, theme)
    choices = sorted(_choices(content, strip, (width, height, room), theme), key=lambda one: one[:2])
    for _, _, found in choices:
        unit = content.canvas.unit
        if label_size(found, found.space * unit, theme) < _small(content, theme) - 0.25:
            continue
        if least_height(found, theme) * unit <= room:
            return found
    return None


def _strip(content: Staff, theme: Theme) -> _Strip:
    engraving = unbroken(content.musicxml)
    starts = (*engraving.starts, engraving.width)
    where, times = pages_of(content.musicxml, (engraving,)), score_time(content.musicxml).bars
    widths = tuple(two - one for one, two in pairwise(starts))
    close: list[list[_Close]] = [[] for _ in widths]

    def bar(at: float) -> int:
        return max(0, min(bisect_right(times, at + 1e-6) - 1, len(widths) - 1))

    for pair in (*label_neighbours(content, theme), *chord_neighbours(content, theme)):
        apart = stand(where, pair.two) - stand(where, pair.one)
        close[bar(pair.one[0])].append(_Close(bar(pair.two[0]), apart, pair.wide, pair.gap))
    return _Strip(engraving, starts[0], widths, tuple(map(tuple, close)))


def _choices(
    content: Staff, strip: _Strip, most: tuple[int, float, float], theme: Theme
) -> Iterator[tuple[int, float, Staff]]:
    """(pages, how small, content) for each size, in as few systems as its words allow, and in a few more.

    `most`: the width, the height that is pleasant and the height that there is, in pixels.
    """
    unit = content.canvas.unit
    width, height, room = most[0], most[1] / unit, most[2] / unit
    easy, tight = zones(theme), zones(theme, 0.0)
    beside = width - 2 * PADDING * unit - names_width(content, theme)
    pickup = first_bar_is_pickup(content.musicxml) and len(strip.bars) > 1
    for space in SPACES:
        across, pixels = beside / (space * unit), space * unit
        label = content.canvas.pixels(theme.sizes.label) * min(1, space / SPACES[2])
        size = max(_small(content, theme), label)
        music = strip.engraving.height * space
        row = row_height(content, theme, easy, music)
        rows = max(1, int((height - 2 * easy.edge + easy.between) // (row + easy.between)))
        lowest = 2 * tight.edge + row_height(content, theme, tight, music)
        if (
            space < smallest_space((strip.engraving,), theme)
            or strip.lead + TIGHTEST * max(strip.bars) > across
            or lowest * _ABOUT > room
        ):
            continue
        fewest = _fewest(strip, pickup, across, size, pixels)
        for count in range(fewest, min(fewest + 3, len(strip.bars) - pickup + 1)):
            bars = systems_of(len(strip.bars), count, pickup)
            wide = across
            if count == 1:
                needed = max(COMFORT, _stretch(strip, 0, bars[0], size, pixels))
                wide = min(across, strip.lead + needed * sum(strip.bars))
            held = min(rows, count)
            made = replace(content, across=round(wide, 2), space=space, bars=bars, rows=held)
            over = max(0.0, held * (row + easy.between) - easy.between + 2 * easy.edge - height)
            small = max(0.0, SMALL_SPACE - space) * 4 if over else 0.0
            cost = EACH_SYSTEM * count - space + over * EACH_UNIT_TOO_TALL + small
            yield math.ceil(count / held), cost, made


def _fewest(strip: _Strip, pickup: bool, across: float, size: float, pixels: float) -> int:
    """The fewest systems in which every bar has the room that its notes and words need; else one for each bar."""
    most = len(strip.bars) - pickup

    def fits(first: int, last: int) -> bool:
        natural = sum(strip.bars[first:last])
        return (
            strip.lead + natural <= across
            and strip.lead + _stretch(strip, first, last, size, pixels) * natural <= across
        )

    for count in range(1, most):
        ends = (0, *accumulate(systems_of(len(strip.bars), count, pickup)))
        if all(fits(first, last) for first, last in pairwise(ends)):
            return count
    return most


def _stretch(strip: _Strip, first: int, last: int, size: float, pixels: float) -> float:
    """How many times wider than by nature the bars from `first` up to `last` must be for their words."""
    close = chain.from_iterable(strip.close[first:last])
    return max((pair.stretch(size, pixels) for pair in close if pair.last < last), default=0.0)


def _small(content: Staff, theme: Theme) -> float:
    return content.canvas.pixels(theme.sizes.small)

"""Which rows of a chart a panel of some height shows: all of them, smaller if need be, or a page at a time."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.drawing.chart.chart import smallest_factor
from studio.drawing.chart.lane import ROW_GAP, Chords, Sounding, row_height
from studio.drawing.chart.rows import Arrangement, arrange
from studio.drawing.frame import PADDING
from studio.drawing.themes.theme import Theme

TIGHT = 2.0
"""Units over and under the rows where a panel is as low as it can be."""

_SHRUNK = (1.0, 0.93, 0.86, 0.8, 0.74, 0.68)
"""Shares of the size that a chart has by its width, tried in turn until all rows fit its height."""


@dataclass(frozen=True)
class Pages:
    """A chart's rows, how they are arranged, which of them stand on each page, and whether the height holds a row."""

    found: Arrangement
    pages: tuple[tuple[int, ...], ...]
    fits: bool

    def page(self, look: Sounding, content: Chords) -> int:
        """The page on which what sounds stands; the first where nothing does."""
        bar = look.bar
        if bar is None:
            bar = int(content.cells[look.now].begin) if look.now is not None else 0
        row = self.found.row_of(bar)
        return next(n for n, page in enumerate(self.pages) if row in page)


@lru_cache(maxsize=64)
def paged(content: Chords, width: float, height: float, theme: Theme) -> Pages:
    """The chart in a panel of this size: with as few pages as there can be, and then as large as there is room for."""
    return min((_pages(found, content, height, theme) for found in _sizes(content, width, theme)), key=_order)


def least_and_wanted(content: Chords, width: float, theme: Theme) -> tuple[float, float]:
    """Units of height that the chart's tallest row takes set as small as can be read, and that all rows want."""
    canvas = content.canvas
    smallest = arrange(content.bars, content.cells, width, canvas, theme, smallest_factor(theme))
    least = max(row_height(row, content, smallest, theme) for row in smallest.rows) - ROW_GAP + 2 * TIGHT
    pages = paged(content, width, content.tallest * canvas.unit, theme)
    heights = (
        sum(row_height(pages.found.rows[n], content, pages.found, theme) for n in page)
        for page in pages.pages
    )
    return least, max(least, min(max(heights) - ROW_GAP + 2 * PADDING, content.tallest))


def tops(pages: Pages, page: int, content: Chords, height: float, theme: Theme) -> list[tuple[int, float]]:
    """The rows of a page, each with its top in pixels; together they stand in the middle of the height."""
    u = content.canvas.unit
    heights = {n: row_height(pages.found.rows[n], content, pages.found, theme) * u for n in pages.pages[page]}
    top = (height - sum(heights.values()) + ROW_GAP * u) / 2
    placed = []
    for number, tall in heights.items():
        placed.append((number, top))
        top += tall
    return placed


def _sizes(content: Chords, width: float, theme: Theme) -> list[Arrangement]:
    """The chart arranged at the size that its width allows, and at smaller ones that can still be read."""
    canvas, least = content.canvas, smallest_factor(theme)
    found = arrange(content.bars, content.cells, width, canvas, theme)
    if found.factor <= least:
        return [found]
    sizes = {least, *(max(least, found.factor * share) for share in _SHRUNK)}
    return [
        arrange(content.bars, content.cells, width, canvas, theme, size)
        for size in sorted(sizes, reverse=True)
    ]


def _pages(found: Arrangement, content: Chords, height: float, theme: Theme) -> Pages:
    u = content.canvas.unit
    room = height - 2 * TIGHT * u + ROW_GAP * u + 1
    pages: list[list[int]] = [[]]
    taken = 0.0
    for number, row in enumerate(found.rows):
        tall = row_height(row, content, found, theme) * u
        if pages[-1] and taken + tall > room:
            pages.append([])
            taken = 0.0
        pages[-1].append(number)
        taken += tall
    tallest = max(row_height(row, content, found, theme) for row in found.rows) * u
    return Pages(found, tuple(map(tuple, pages)), tallest <= room)


def _order(pages: Pages) -> tuple[bool, int]:
    return not pages.fits, len(pages.pages)

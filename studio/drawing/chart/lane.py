"""Drawing a chord chart as a lane: rows of bars, a bracket on what sounds, the way to what comes next."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.chart.chart import (
    INSET,
    Arrangement,
    ChartBar,
    ChartCell,
    Row,
    cap,
    cell_lines,
    numeral_size,
)
from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.type import plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

BRACKET_ZONE, NUMERAL_GAP, NOTE_GAP, ROW_GAP = 3.0, 3.0, 2.6, 2.0
"""Units: the bracket, numeral under symbol, small print under numeral, row under row."""


WIDE_TALLEST, OTHER_TALLEST = 51, 78
"""Units that the lane may ask for on a wide canvas, and on another; more rows are turned like pages."""


@dataclass(frozen=True)
class Chords:
    """A chart and the canvas that it is composed for."""

    canvas: CanvasSize
    bars: tuple[ChartBar, ...]
    cells: tuple[ChartCell, ...]


@dataclass(frozen=True)
class Sounding:
    """Which cell sounds now; None before, between and after."""

    now: int | None = None


class Lane:
    """Draws rows of one chart on one sheet. Lengths inside are pixels."""

    def __init__(
        self, sheet: Sheet, content: Chords, found: Arrangement, look: Sounding, theme: Theme
    ) -> None:
        self.sheet, self.content, self.found, self.theme = sheet, content, found, theme
        self.u = content.canvas.unit
        self.now = look.now
        self.left = PADDING * self.u
        self.bar_width = (sheet.width - 2 * self.left) / found.across

    def x(self, row: Row, place: float) -> float:
        """Where a place, counted in bars of the lane, stands in a row."""
        bars = self.content.bars
        index = min(int(place), row.bars.stop - 1)
        before = sum(bars[n].share for n in range(row.bars.start, index))
        return self.left + self.bar_width * (before + (place - index) * bars[index].share)

    def row(self, row: Row, top: float) -> None:
        u, content = self.u, self.content
        sizes = self.theme.sizes
        symbol_line = top + BRACKET_ZONE * u + cap(content.canvas.pixels(sizes.symbol) * self.found.factor)
        numeral_line = symbol_line
        if numbered(content):
            numeral_line += NUMERAL_GAP * u + cap(self._numeral_size())
        self._bar_lines(row, top + BRACKET_ZONE * u * 0.6, numeral_line + 0.6 * u)
        for number in row.cells:
            self._cell(row, number, top, symbol_line, numeral_line)
        if row.notes:
            self._notes(row, numeral_line + NOTE_GAP * u + cap(content.canvas.pixels(sizes.small)))

    def _numeral_size(self) -> float:
        return numeral_size(self.content.canvas, self.theme, self.found.factor)

    def _bar_lines(self, row: Row, top: float, bottom: float) -> None:
        thin, edges = 0.25 * self.u, [self.x(row, n) for n in row.bars]
        edges.append(self.x(row, row.bars.stop))
        for x in edges:
            self.sheet.rectangle(x - thin / 2, top, x + thin / 2, bottom, self.theme.colours.rule)

    def _cell(self, row: Row, number: int, top: float, symbol_line: float, numeral_line: float) -> None:
        u, colours = self.u, self.theme.colours
        cell = self.content.cells[number]
        left, right = self.x(row, cell.begin), self.x(row, min(cell.end, row.bars.stop))
        ink, second = colours.ink, colours.quiet
        if number == self.now:
            ink = second = colours.now
            edge, drop = 0.7 * u, 2.0 * u
            self.sheet.stroke(
                [
                    (left + 0.9 * u, top + drop),
                    (left + 0.9 * u, top + edge / 2),
                    (right - 0.9 * u, top + edge / 2),
                    (right - 0.9 * u, top + drop),
                ],
                edge,
                colours.now,
            )
        elif self.now is not None and number == self.now + 1:
            ink = second = colours.next
            edge = 0.4 * u
            x, y = left + 0.9 * u, top + 0.35 * u
            self.sheet.stroke([(x, y + 1.8 * u), (x, y), (x + 2.8 * u, y)], edge, colours.next)
        above, below = cell_lines(cell, self.content.canvas, self.theme, self.found.factor)
        x = left + INSET * u
        self.sheet.type(above, x, symbol_line, ink)
        self.sheet.type(below, x, numeral_line, second)
        if cell.aims and number + 1 in row.cells:
            middle = numeral_line - cap(self._numeral_size()) / 2
            target = self.x(row, self.content.cells[number + 1].begin) + (INSET - 0.6) * u
            self._arrow(x + below.width + 1.0 * u, target, middle, second)

    def _arrow(self, start: float, end: float, y: float, colour: Colour) -> None:
        u = self.u
        if end - start < 3 * u:
            return
        self.sheet.rectangle(start, y - 0.2 * u, end - 1.2 * u, y + 0.2 * u, colour)
        self.sheet.polygon([(end - 1.6 * u, y - u), (end, y), (end - 1.6 * u, y + u)], colour)

    def _notes(self, row: Row, baseline: float) -> None:
        size, regular = self.content.canvas.pixels(self.theme.sizes.small), self.theme.weights.regular
        noted = [n for n in row.cells if self.content.cells[n].notes]
        for index, number in enumerate(noted):
            cell = self.content.cells[number]
            x = self.x(row, cell.begin) + INSET * self.u
            following = (
                self.content.cells[noted[index + 1]].begin if index + 1 < len(noted) else row.bars.stop
            )
            room = self.x(row, following) - x
            fitting = (set_ for text in cell.notes if (set_ := plain(text, size, regular)).width <= room)
            if line := next(fitting, None):
                colour = self.theme.colours.now if number == self.now else self.theme.colours.quiet
                self.sheet.type(line, x, baseline, colour)


def seen(
    content: Chords, found: Arrangement, look: Sounding, height: int, theme: Theme
) -> list[tuple[int, float]]:
    """Rows that a panel of this height shows, the sounding one among them, each with its top in pixels."""
    u = content.canvas.unit
    heights = [row_height(row, content, found, theme) * u for row in found.rows]
    room = height - 2 * PADDING * u + ROW_GAP * u + 1
    now = found.row_of(look.now) if look.now is not None else 0
    pages: list[list[int]] = [[]]
    for number, tall in enumerate(heights):
        if pages[-1] and sum(heights[n] for n in pages[-1]) + tall > room:
            pages.append([])
        pages[-1].append(number)
    page = next(page for page in pages if now in page)
    top = (height - sum(heights[n] for n in page) + ROW_GAP * u) / 2
    placed = []
    for number in page:
        placed.append((number, top))
        top += heights[number]
    return placed


def row_height(row: Row, content: Chords, found: Arrangement, theme: Theme) -> float:
    """Units from the top of a row to the top of the next."""
    canvas, u = content.canvas, content.canvas.unit
    height = BRACKET_ZONE + cap(canvas.pixels(theme.sizes.symbol) * found.factor) / u + ROW_GAP
    if numbered(content):
        height += NUMERAL_GAP + cap(numeral_size(canvas, theme, found.factor)) / u
    if row.notes:
        height += NOTE_GAP + cap(canvas.pixels(theme.sizes.small)) / u
    return height


def numbered(content: Chords) -> bool:
    return any(cell.numeral for cell in content.cells)

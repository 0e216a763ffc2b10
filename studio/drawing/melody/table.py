"""Drawing a comparison of scales: each scale a thin line with its notes on it, in columns of degrees.

Filled is heard, hollow is missing, a cross is heard and not of the scale; what tells the scales apart is a
diamond in a bracketed column.
"""

from __future__ import annotations

from itertools import groupby, pairwise

from PIL import Image

from studio.drawing.frame import PADDING, panelled
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain
from studio.drawing.melody.comparison import Cell, Column, Comparison, ScaleRow
from studio.drawing.melody.hollow import hollow_lozenge, lozenge
from studio.drawing.melody.table_layout import (
    ANSWER,
    BRACKETED,
    LEADING,
    NAMED,
    OVER_WORDS,
    ROW,
    SHAPE,
    UNDER_DEGREE,
    UNDER_HEAD,
    UNDER_WORDS,
    Legend,
    corner,
    degree_size,
    entry_width,
    indent,
    laid_out,
    least_row,
    name_line,
    over_row,
    words_height,
)
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

WIDEST_BRACKET = 5.0
"""Units from the middle of a column to the ends of its brackets."""

DIAMOND, CROSS, EDGE, STRING, BRACKET = 2.4, 1.35, 0.42, 0.2, 0.45
"""Units: half a diamond, half a cross, the edges of hollow shapes, the line that they stand on, the brackets."""


def draw_comparison(content: Comparison, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The comparison on a panel at the left of a picture of `size`, as wide as it needs."""
    return _Table(content, size, theme).draw()


class _Table:
    """One comparison on one sheet. Lengths are pixels."""

    def __init__(self, content: Comparison, size: tuple[int, int], theme: Theme) -> None:
        found = laid_out(content, size[0], theme)
        assert found is not None, "it was composed for this width"
        self.content, self.found, self.theme = content, found, theme
        self.u = u = content.canvas.unit
        self.sheet = panelled(size, content.canvas, theme)
        self.left = PADDING * u
        self.first = self.left + found.names
        self.over = over_row(content, found, theme)
        around = words_height(content, found, theme)
        rows = len(content.rows)
        least = least_row(content, found, theme)
        self.row = min(max((size[1] - around - 2 * PADDING * u) / rows, least), max(ROW * 1.3 * u, least))
        self.top = (size[1] - around - self.row * rows) / 2
        self.small, self.label = (
            content.canvas.pixels(theme.sizes.small),
            content.canvas.pixels(theme.sizes.label),
        )

    def draw(self) -> Image.Image:
        u = self.u
        degrees = self.top + BRACKETED * u + CAP * self.label
        names = degrees + UNDER_DEGREE * u + CAP * self.found.notes
        rows = names + UNDER_HEAD * u
        self._head(degrees, names)
        top = rows
        for row in self.content.rows:
            self._row(row, top)
            top += self.row + self.over
        self._brackets(self.top, top + 0.2 * u)
        self._words(top + OVER_WORDS * u)
        return self.sheet.picture

    def _x(self, column: int) -> float:
        return self.first + self.found.column * (column + 0.5)

    def _head(self, degrees: float, names: float) -> None:
        colours, weights = self.theme.colours, self.theme.weights
        size = degree_size(self.content, self.theme)
        for number, column in enumerate(self.content.columns):
            ink = self._ink(column)
            self.sheet.type(
                plain(column.degree, size, weights.strong), self._x(number), degrees, ink, "middle"
            )
            self.sheet.type(
                plain(column.name, self.found.notes, weights.regular),
                self._x(number),
                names,
                colours.quiet,
                "middle",
            )
        if self.found.beside:
            self.sheet.type(corner(self.content, self.theme), self.left, names, colours.quiet)

    def _ink(self, column: Column) -> Colour:
        """The accent of what sounds for a note that decides, the other one for a note that would."""
        colours = self.theme.colours
        return {"decides": colours.now, "would decide": colours.next}.get(column.telling, colours.ink)

    def _row(self, row: ScaleRow, top: float) -> None:
        u, colours = self.u, self.theme.colours
        y = top + self.over + self.row / 2
        self._row_name(row, y if self.found.beside else top + NAMED * u + CAP * self.label / 2)
        held = [number for number, cell in enumerate(row.cells) if cell in ("heard", "missing")]
        marked = [number for number, cell in enumerate(row.cells) if cell and held[0] <= number <= held[-1]]
        thin = STRING * u
        for one, two in pairwise(marked):
            start, end = (self._x(at) + way * self._reach(row, at) for at, way in ((one, 1), (two, -1)))
            self.sheet.rectangle(start, y - thin / 2, end, y + thin / 2, colours.rule)
        for number, cell in enumerate(row.cells):
            column = self.content.columns[number]
            self._cell(cell, bool(column.telling), self._x(number), y, self._ink(column))

    def _reach(self, row: ScaleRow, number: int) -> float:
        """Half of how wide a cell's mark is."""
        diamond = self.content.columns[number].telling and row.cells[number] != "foreign"
        return (DIAMOND if diamond else SHAPE) * self.u

    def _row_name(self, row: ScaleRow, middle: float) -> None:
        colours, name = self.theme.colours, name_line(self.content, row, self.theme)
        x = self.left + indent(self.content)
        other = not row.answer and indent(self.content)
        self.sheet.type(name, x, middle + name.cap / 2, colours.quiet if other else colours.ink)
        if row.answer and indent(self.content):
            half = ANSWER * self.u
            self.sheet.polygon(
                [(self.left, middle - half), (self.left + 1.5 * half, middle), (self.left, middle + half)],
                colours.ink,
            )

    def _cell(self, cell: Cell, tells: bool, x: float, y: float, ink: Colour) -> None:
        if not cell:
            return
        if cell == "foreign":
            self._cross(x, y, self.theme.colours.ink)
        elif tells:
            self._diamond(x, y, cell == "heard", ink)
        else:
            self._dot(x, y, cell == "heard", ink)

    def _dot(self, x: float, y: float, filled: bool, ink: Colour) -> None:
        if filled:
            self.sheet.dot(x, y, SHAPE * self.u, ink)
        else:
            self.sheet.ring(x, y, SHAPE * self.u, EDGE * self.u, ink)

    def _diamond(self, x: float, y: float, filled: bool, ink: Colour, size: float = DIAMOND) -> None:
        if filled:
            self.sheet.polygon(lozenge(x, y, size * self.u), ink)
        else:
            hollow_lozenge(self.sheet, x, y, size * self.u, EDGE * self.u, ink)

    def _cross(self, x: float, y: float, ink: Colour) -> None:
        half, thin = CROSS * self.u, EDGE * 0.75 * self.u
        for way in (1, -1):
            ends = ((x - half, y - way * half), (x + half, y + way * half))
            (x1, y1), (x2, y2) = ends
            self.sheet.polygon(
                [
                    (x1 - thin, y1 + way * thin),
                    (x1 + thin, y1 - way * thin),
                    (x2 + thin, y2 - way * thin),
                    (x2 - thin, y2 + way * thin),
                ],
                ink,
            )

    def _brackets(self, top: float, bottom: float) -> None:
        """A bracket over and under the columns that tell the scales apart; neighbours share one."""
        half = min(self.found.column / 2 - 0.5 * self.u, WIDEST_BRACKET * self.u)
        drop, thick = 1.0 * self.u, BRACKET * self.u
        columns = enumerate(self.content.columns)
        for telling, group in groupby(columns, key=lambda one: one[1].telling):
            if not telling:
                continue
            numbers = [number for number, _ in group]
            left, right = self._x(numbers[0]) - half, self._x(numbers[-1]) + half
            ink = self._ink(self.content.columns[numbers[0]])
            for y, inward in ((top, drop), (bottom, -drop)):
                corners = [(left, y + inward), (left, y), (right, y), (right, y + inward)]
                self.sheet.stroke(corners, thick, ink)

    def _words(self, top: float) -> None:
        size, weights = self.found.size, self.theme.weights
        baseline = top + CAP * size
        for text in self.found.sentence:
            self.sheet.type(plain(text, size, weights.strong), self.left, baseline, self.theme.colours.ink)
            baseline += LEADING * size
        small = self.small
        baseline += UNDER_WORDS * self.u + CAP * small - LEADING * size
        for legend in self.found.legend:
            self._legend(legend, baseline)
            baseline += LEADING * small

    def _legend(self, legend: Legend, baseline: float) -> None:
        x, ink = self.left, self.theme.colours.quiet
        for shape, words in legend:
            self._shape(shape, x + SHAPE * self.u, baseline - CAP * self.small / 2, ink)
            line = plain(words, self.small, self.theme.weights.regular)
            self.sheet.type(line, x + (2 * SHAPE + 1.2) * self.u, baseline, ink)
            x += entry_width(self.content, words, self.theme)

    def _shape(self, shape: str, x: float, y: float, ink: Colour) -> None:
        if shape == "foreign":
            self._cross(x, y, ink)
        elif "decide" in shape:
            self._diamond(x, y, shape == "decides", ink, SHAPE * 1.15)
        else:
            self._dot(x, y, shape == "heard", ink)

"""Drawing a chord chart as a lane: rows of bars, a bracket on what sounds, the way to what comes next."""

from __future__ import annotations

from dataclasses import dataclass, replace

from studio.drawing.chart.chart import ChartBar, ChartCell, cap, cell_lines, numeral_size
from studio.drawing.chart.rows import INSET, Arrangement, Piece, Row
from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.symbols import smallest_symbol_size, symbol
from studio.drawing.lettering.type import Line, plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

BRACKET_ZONE, NUMERAL_GAP, NOTE_GAP, ROW_GAP = 3.0, 3.0, 2.6, 2.0
"""Units: the bracket, numeral under symbol, small print under numeral, row under row."""

STRUCK, STRUCK_GAP = 0.7, 2.5
"""Size of a symbol that is struck through, in sizes of the one that sounds instead; units between the two."""

SMALLEST_SYMBOL = smallest_symbol_size()

BASS = 0.3
"""How far a bass after a slash reaches under its line, in sizes of the symbol."""


@dataclass(frozen=True)
class Chords:
    """A chart, the canvas that it is composed for, and the most units that it may ask for; more rows are
    turned like pages."""

    canvas: CanvasSize
    bars: tuple[ChartBar, ...]
    cells: tuple[ChartCell, ...]
    tallest: float = 51.0


@dataclass(frozen=True)
class Sounding:
    """Which cell sounds now, and in which bar of the chart; None before, between and after. `alone`: the cell after
    it is not heard next. `instead`: which of the cell's other chords sounds in its place, where one does."""

    now: int | None = None
    bar: int | None = None
    alone: bool = False
    instead: int | None = None


class Lane:
    """Draws rows of one chart on one sheet. Lengths inside are pixels."""

    def __init__(
        self, sheet: Sheet, content: Chords, found: Arrangement, look: Sounding, theme: Theme
    ) -> None:
        self.sheet, self.content, self.found, self.theme = sheet, content, found, theme
        self.u = content.canvas.unit
        self.now = look.now
        self.cells = heard_cells(content.cells, look)
        self.changed = look.now if look.instead is not None else None
        self.next = None if look.now is None or look.alone else look.now + 1
        self.level = self._level()

    def _level(self) -> int:
        """How short the small print is: as long as all of it fits in that form, so that none is short or missing where
        another is not; the shortest where it never fits."""
        printed = [
            (cell, row, piece)
            for row in self.found.rows
            for piece in row.pieces
            if piece.shown and (cell := self.content.cells[piece.cell]).notes and piece.cell != self.changed
        ]
        most = max((len(cell.notes) for cell, _, _ in printed), default=1)
        fitting = (
            level
            for level in range(most)
            if all(self.note(cell.small_print(level), row, piece) for cell, row, piece in printed)
        )
        return next(fitting, most - 1)

    def row(self, row: Row, top: float) -> None:
        u, content = self.u, self.content
        sizes = self.theme.sizes
        symbol_line = top + BRACKET_ZONE * u + cap(content.canvas.pixels(sizes.symbol) * self.found.factor)
        numeral_line = symbol_line
        if numbered(content):
            numeral_line += numeral_gap(content, self.found, self.theme) + cap(self._numeral_size())
        self._bar_lines(row, top + BRACKET_ZONE * u * 0.6, numeral_line + 0.6 * u)
        self._bracket(row, top)
        for piece in row.pieces:
            if piece.shown:
                self._cell(row, piece, symbol_line, numeral_line)
            else:
                self._hold(piece, symbol_line)
        if row.notes:
            self._notes(row, numeral_line + NOTE_GAP * u + cap(content.canvas.pixels(sizes.small)))

    def _numeral_size(self) -> float:
        return numeral_size(self.content.canvas, self.theme, self.found.factor)

    def _bar_lines(self, row: Row, top: float, bottom: float) -> None:
        thin = 0.25 * self.u
        bars = [self.content.bars[n] for n in row.bars]
        lines = row.edges[:-1] if bars[-1].open else row.edges
        for x in lines[int(bars[0].pickup and len(bars) > 1) :]:
            self.sheet.rectangle(x - thin / 2, top, x + thin / 2, bottom, self.theme.colours.rule)
        for bar, x in zip(bars, row.edges, strict=False):
            if bar.meter:
                self._meter(bar.meter, x + INSET * self.u, top)

    def _meter(self, meter: str, x: float, top: float) -> None:
        """A meter that begins here, one figure over the other."""
        size = self.content.canvas.pixels(self.theme.sizes.small)
        figures = [plain(part, size, self.theme.weights.strong) for part in meter.split("/")]
        middle = x + max(figure.width for figure in figures) / 2
        baseline = top + 1.4 * self.u + cap(size)
        for figure in figures:
            self.sheet.type(figure, middle, baseline, self.theme.colours.quiet, "middle")
            baseline += cap(size) + 0.7 * self.u

    def _bracket(self, row: Row, top: float) -> None:
        """A bracket over what sounds, and a corner over what comes next."""
        if self.now is None:
            return
        u, colours = self.u, self.theme.colours
        if across := row.across(self.now):
            left, right = across[0] + 0.9 * u, across[1] - 0.9 * u
            edge, bottom = 0.7 * u, top + 2.0 * u
            y = top + edge / 2
            self.sheet.stroke([(left, bottom), (left, y), (right, y), (right, bottom)], edge, colours.now)
        following = next((p for p in row.pieces if p.shown and p.cell == self.next), None)
        if following and following.bar == int(self.cells[following.cell].begin):
            x, y = following.left + 0.9 * u, top + 0.35 * u
            self.sheet.stroke([(x, y + 1.8 * u), (x, y), (x + 2.8 * u, y)], 0.4 * u, colours.next)

    def _inks(self, number: int) -> tuple[Colour, Colour]:
        colours = self.theme.colours
        if number == self.now:
            return colours.now, colours.now
        if number == self.next:
            return colours.next, colours.next
        return colours.ink, colours.quiet

    def _cell(self, row: Row, piece: Piece, symbol_line: float, numeral_line: float) -> None:
        u, cell = self.u, self.cells[piece.cell]
        ink, second = self._inks(piece.cell)
        again = piece.bar != int(cell.begin)  # held into this row: its symbol is a reminder
        above, below = cell_lines(cell, self.content.canvas, self.theme, self.found.factor)
        x = piece.left + INSET * u
        self.sheet.type(above, x, symbol_line, second if again else ink)
        if piece.cell == self.changed:
            self._struck_out(piece, x + above.width + STRUCK_GAP * u, symbol_line)
        self.sheet.type(below, x, numeral_line, second)
        if below.pieces:
            self._origin(row, piece, below, numeral_line, second)

    def _struck_out(self, piece: Piece, x: float, baseline: float) -> None:
        """The chord that is written, struck through beside the one that sounds instead, where there is room: the small
        print has it in words."""
        size = self.content.canvas.pixels(
            max(self.theme.sizes.symbol * self.found.factor * STRUCK, SMALLEST_SYMBOL)
        )
        line = symbol(self.content.cells[piece.cell].symbol, size, self.theme.weights)
        beyond = 0.5 * self.u
        if x + line.width + 2 * beyond > piece.right:
            return
        colour, y = self.theme.colours.quiet, baseline - 0.38 * cap(size)  # through small letters as well
        self.sheet.type(line, x, baseline, colour)
        thick = 0.15 * self.u
        self.sheet.rectangle(x - beyond, y - thick, x + line.width + beyond, y + thick, colour)

    def _origin(self, row: Row, piece: Piece, below: Line, baseline: float, colour: Colour) -> None:
        """The shape that says that a chord is no plain chord of its key."""
        u, cell = self.u, self.cells[piece.cell]
        left, right = piece.left + INSET * u, piece.left + INSET * u + below.width
        middle = baseline - cap(self._numeral_size()) / 2
        if cell.origin == "pivot":
            over, under = baseline - cap(self._numeral_size()) - 1.1 * u, baseline + 1.0 * u
            edges = [(left - 0.8 * u, over), (right + 0.8 * u, over), (right + 0.8 * u, under)]
            self.sheet.stroke([*edges, (left - 0.8 * u, under), edges[0]], 0.3 * u, colour)
        elif cell.origin == "borrowed":
            self._dashes(left, right, baseline + 1.1 * u, colour)
        if cell.aims:
            following = next((p for p in row.pieces if p.cell == piece.cell + 1), None)
            end = self._before(row, following.left) if following else row.edges[-1] - 0.8 * u
            self._arrow(right + 1.0 * u, end, middle, colour)
        elif cell.origin == "applied":
            start, end = right + 1.0 * u, right + 4.2 * u
            self.sheet.rectangle(start, middle - 0.2 * u, start + 0.8 * u, middle + 0.2 * u, colour)
            self._arrow(start + 1.4 * u, end, middle, colour)

    def _before(self, row: Row, left: float) -> float:
        """Where an arrow ends that leads to a chord: before its bar line, or its numeral within a bar."""
        on_line = any(abs(left - edge) < 1 for edge in row.edges)
        return left - 0.8 * self.u if on_line else left + (INSET - 0.6) * self.u

    def _dashes(self, left: float, right: float, y: float, colour: Colour) -> None:
        u = self.u
        count = max(2, round((right - left) / (1.5 * u)))
        step = (right - left + 0.6 * u) / count
        for number in range(count):
            x = left + number * step
            self.sheet.rectangle(x, y, x + step - 0.6 * u, y + 0.3 * u, colour)

    def _arrow(self, start: float, end: float, y: float, colour: Colour) -> None:
        u = self.u
        self.sheet.rectangle(start, y - 0.2 * u, end - 1.2 * u, y + 0.2 * u, colour)
        self.sheet.polygon([(end - 1.6 * u, y - u), (end, y), (end - 1.6 * u, y + u)], colour)

    def _hold(self, piece: Piece, symbol_line: float) -> None:
        """A chord that goes on sounding in a further bar: a level line at the height of its symbol."""
        u = self.u
        height = cap(self.content.canvas.pixels(self.theme.sizes.symbol) * self.found.factor)
        colour = self.theme.colours.now if piece.cell == self.now else self.theme.colours.rule
        y, left = symbol_line - height / 2, piece.left + INSET * u
        self.sheet.rectangle(left, y - 0.2 * u, max(left + u, piece.right - INSET * u), y + 0.2 * u, colour)

    def _notes(self, row: Row, baseline: float) -> None:
        for piece in row.pieces:
            cell = self.cells[piece.cell]
            if not piece.shown or not cell.printed:
                continue
            changed = piece.cell == self.changed
            words = cell.small_print(0) if changed else cell.small_print(self.level)
            if line := self.note((*words, *(cell.notes if changed else cell.key)), row, piece):
                colour = self.theme.colours.now if piece.cell == self.now else self.theme.colours.quiet
                self.sheet.type(line, piece.left + INSET * self.u, baseline, colour)

    def note(self, words: tuple[str, ...], row: Row, piece: Piece) -> Line | None:
        """The first of the words that fits before the next small print of the row."""
        size, regular = self.content.canvas.pixels(self.theme.sizes.small), self.theme.weights.regular
        after = row.pieces[row.pieces.index(piece) + 1 :]
        others = (p.left for p in after if p.shown and self.cells[p.cell].printed)
        room = next(others, row.edges[-1]) - piece.left - (INSET + 0.75) * self.u
        lines = (plain(text, size, regular) for text in words)
        return next((line for line in lines if line.width <= room), None)


def heard_cells(cells: tuple[ChartCell, ...], look: Sounding) -> tuple[ChartCell, ...]:
    """The cells with the chord that sounds in its place; nothing leads to a chord that does not come."""
    if look.now is None or look.instead is None:
        return cells
    found = list(cells)
    found[look.now] = cells[look.now].instead[look.instead]
    if look.now:
        found[look.now - 1] = replace(cells[look.now - 1], aims=False)
    return tuple(found)


def numeral_gap(content: Chords, found: Arrangement, theme: Theme) -> float:
    """Pixels from the line of the symbols to the numerals under it: room for a bass after a slash as well."""
    return max(
        NUMERAL_GAP * content.canvas.unit, BASS * content.canvas.pixels(theme.sizes.symbol) * found.factor
    )


def row_height(row: Row, content: Chords, found: Arrangement, theme: Theme) -> float:
    """Units from the top of a row to the top of the next."""
    canvas, u = content.canvas, content.canvas.unit
    height = BRACKET_ZONE + cap(canvas.pixels(theme.sizes.symbol) * found.factor) / u + ROW_GAP
    if numbered(content):
        height += (numeral_gap(content, found, theme) + cap(numeral_size(canvas, theme, found.factor))) / u
    if row.notes:
        height += NOTE_GAP + cap(canvas.pixels(theme.sizes.small)) / u
    return height


def numbered(content: Chords) -> bool:
    return any(cell.numeral for cell in content.cells)

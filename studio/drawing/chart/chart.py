"""The lane of a chord chart as data: bars, what stands in them, how they break into rows of a given width."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import NumeralWords, SymbolWords, numeral, smallest_symbol_size, symbol
from studio.drawing.lettering.type import Line
from studio.drawing.themes.theme import Theme

BARS_IN_A_ROW = (4, 3, 2, 1)
"""Bars that a row may hold, as charts are written, best first."""

GOOD = 0.7
"""Share of the theme's size that is large enough to keep more bars in a row."""

INSET = 1.75
"""Units between a bar line, or a chord's start, and the chord's symbol."""

APART = 1.5
"""Units that must stay free between one symbol and the next."""


@dataclass(frozen=True)
class ChartBar:
    """A bar: its number in the song, and its length beside the longest bar's (1.0)."""

    number: int
    share: float = 1.0


@dataclass(frozen=True)
class ChartCell:
    """One chord of the lane. `begin` and `end` count bars from the lane's start: 1.5 is half of the second."""

    begin: float
    end: float
    symbol: SymbolWords
    numeral: NumeralWords | None = None
    notes: tuple[str, ...] = ()  # the same remark, longest first; the longest that fits is set
    aims: bool = False  # an applied chord that resolves to the chord after it: an arrow says so


@dataclass(frozen=True)
class Row:
    """Bars and cells of one row: half-open ranges into the chart's, and whether small print stands in it."""

    bars: range
    cells: range
    notes: bool


@dataclass(frozen=True)
class Arrangement:
    """How a chart breaks into rows, and the size that its symbols take, in shares of the theme's."""

    rows: tuple[Row, ...]
    across: int
    factor: float

    def row_of(self, cell: int) -> int:
        """The row that a cell begins in."""
        return next((n for n, row in enumerate(self.rows) if cell in row.cells), 0)


@lru_cache(maxsize=256)
def arrange(
    bars: tuple[ChartBar, ...],
    cells: tuple[ChartCell, ...],
    width: float,
    canvas: CanvasSize,
    theme: Theme,
) -> Arrangement:
    """Break a chart into rows for a panel `width` pixels wide, with as many bars to a row as type has room for."""
    room = width - 2 * PADDING * canvas.unit
    choices: dict[int, float] = {}
    for most in BARS_IN_A_ROW:
        rows = -(-len(bars) // most)
        across = -(-len(bars) // rows)  # rows of even length: six bars are 3 and 3, not 4 and 2
        choices[across] = _room_factor(bars, cells, room / across, canvas, theme)
        if choices[across] >= GOOD:
            break
    across = max(choices, key=lambda n: (min(choices[n], GOOD), n))
    return Arrangement(_rows(bars, cells, across), across, choices[across])


def smallest_factor(theme: Theme) -> float:
    """The share of the theme's size under which a part of a symbol falls below what a phone shows."""
    return smallest_symbol_size() / theme.sizes.symbol


def numeral_size(canvas: CanvasSize, theme: Theme, factor: float) -> float:
    """Pixels of the numerals where symbols take `factor` of the theme's size: smaller too, as far as can be read."""
    return canvas.pixels(max(theme.sizes.numeral * factor, smallest_symbol_size()))


def cell_lines(cell: ChartCell, canvas: CanvasSize, theme: Theme, factor: float) -> tuple[Line, Line]:
    """A cell's symbol and numeral, set at `factor` of the theme's sizes."""
    above = symbol(cell.symbol, canvas.pixels(theme.sizes.symbol) * factor, theme.weights)
    if cell.numeral is None:
        return above, Line()
    return above, numeral(cell.numeral, numeral_size(canvas, theme, factor), theme.weights)


def cap(size: float) -> float:
    """Height of the capitals of a size of type."""
    return CAP * size


def _room_factor(
    bars: Sequence[ChartBar], cells: Sequence[ChartCell], bar_width: float, canvas: CanvasSize, theme: Theme
) -> float:
    """The largest share of the theme's size at which every chord has room in its stretch of bar."""
    factor = 1.0
    for cell in cells:
        index = min(int(cell.begin), len(bars) - 1)
        stretch = (min(cell.end, index + 1) - cell.begin) * bar_width * bars[index].share
        room = stretch - (INSET + APART) * canvas.unit
        factor = min(factor, max(room, 1.0) / cell_lines(cell, canvas, theme, 1.0)[0].width)
        below = cell_lines(cell, canvas, theme, 0.0)[1]
        if below.width > room:  # no size of symbol helps: the numeral cannot be smaller
            factor = min(factor, smallest_factor(theme) * max(room, 1.0) / below.width)
    return factor


def _rows(bars: Sequence[ChartBar], cells: Sequence[ChartCell], across: int) -> tuple[Row, ...]:
    rows: list[Row] = []
    for first in range(0, len(bars), across):
        span = range(first, min(first + across, len(bars)))
        inside = [n for n, cell in enumerate(cells) if span.start <= cell.begin < span.stop]
        held = range(inside[0], inside[-1] + 1) if inside else range(0)
        rows.append(
            Row(
                span,
                held,
                notes=any(cells[n].notes for n in held),
            )
        )
    return tuple(rows)

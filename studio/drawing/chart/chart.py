"""A chord chart as data: its bars, and the chords that stand in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import NumeralWords, SymbolWords, numeral, smallest_symbol_size, symbol
from studio.drawing.lettering.type import Line
from studio.drawing.themes.theme import Theme

Origin = Literal["", "applied", "borrowed", "pivot"]
"""Where a chord comes from that is not simply of its key; a shape at its numeral says so."""


@dataclass(frozen=True)
class ChartBar:
    """A bar by its number in the song.

    `meter` is set where it changes here ("2/4"). A `pickup`, or what is left of a bar that the stretch cuts
    into, hangs before the first bar line, so that the bar lines of all rows stand in line. An `open` bar is cut at
    its end by the stretch, and no line closes it.
    """

    number: int
    meter: str = ""
    pickup: bool = False
    open: bool = False


@dataclass(frozen=True)
class ChartCell:
    """One chord of the chart. `begin` and `end` count bars from the chart's start: 1.5 is half of the second.

    `instead` are the chords that sound in its place where a pass is played otherwise; their notes say so.
    """

    begin: float
    end: float
    symbol: SymbolWords
    numeral: NumeralWords | None = None
    notes: tuple[str, ...] = ()  # the same remark, longest first
    key: tuple[str, ...] = ()  # the key that begins here, longest first
    aims: bool = False  # it leads to the chord after it: an arrow says so
    origin: Origin = ""
    instead: tuple[ChartCell, ...] = ()

    @property
    def printed(self) -> bool:
        """Whether there is small print under it, or may be."""
        return bool(self.notes or self.key or self.instead)

    def small_print(self, level: int) -> tuple[str, ...]:
        """The remark as short as a level says, after the key in full and shorter."""
        note = self.notes[min(level, len(self.notes) - 1)] if self.notes else ""
        if not self.key:
            return (note,)
        return tuple(", ".join(filter(None, (key, note))) for key in self.key)


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

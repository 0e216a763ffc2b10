"""How a chord chart breaks into rows of a given width, and where each chord stands in them.

Bar lines of all rows stand in line, as on a printed chart. Bars are as wide as one another while the type has
room; a crowded bar takes room from easy ones in its row, and a crowded chord from the others of its bar, before
anything is set smaller.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from studio.drawing.chart.chart import ChartBar, ChartCell, cell_lines, smallest_factor
from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.type import plain
from studio.drawing.themes.theme import SMALLEST, Theme

BARS_IN_A_ROW = (4, 3, 2, 1)
"""Bars that a row may hold, as charts are written, best first."""

GOOD = 0.7
"""Share of the theme's size that is large enough to keep more bars in a row."""

INSET = 1.75
"""Units between a bar line, or a chord's start, and the chord's symbol."""

APART = 1.5
"""Units that must stay free between one symbol and the next."""

ARROW = 4.5
"""Units that an arrow takes after a numeral."""

HELD, EMPTY = 3.0, 4.0
"""Units that a chord takes in a bar into which it is held, and a bar takes in which nothing stands."""

REMARK, KEY_REMARK = 15.0, 24.0
"""Units that are kept free for the shortest form of a chord's small print, and for that with the name of a key; a
longer one is set where it fits."""


@dataclass(frozen=True)
class Piece:
    """A chord within one bar. `shown` is whether its symbol stands there: a held chord's stands once in a row."""

    cell: int
    bar: int
    left: float
    right: float
    shown: bool


@dataclass(frozen=True)
class Row:
    """Bars of one row: a half-open range of the chart's, their lines and chords in pixels, and whether there is
    small print under them."""

    bars: range
    edges: tuple[float, ...]
    pieces: tuple[Piece, ...]
    notes: bool

    def across(self, cell: int) -> tuple[float, float] | None:
        """From where to where a cell reaches in this row; None if it does not."""
        own = [piece for piece in self.pieces if piece.cell == cell]
        return (own[0].left, own[-1].right) if own else None


@dataclass(frozen=True)
class Arrangement:
    """How a chart breaks into rows, and the size that its symbols take, in shares of the theme's."""

    rows: tuple[Row, ...]
    across: int
    factor: float

    def row_of(self, bar: int) -> int:
        """The row that a bar stands in."""
        return next((n for n, row in enumerate(self.rows) if bar in row.bars), 0)


@lru_cache(maxsize=256)
def arrange(
    bars: tuple[ChartBar, ...],
    cells: tuple[ChartCell, ...],
    width: float,
    canvas: CanvasSize,
    theme: Theme,
    largest: float = 1.0,
) -> Arrangement:
    """Break a chart into rows for a panel `width` pixels wide, with as many bars to a row as type has room for.

    `largest` is the most of the theme's size that symbols may take. A factor under `smallest_factor` says that
    the chart cannot be read at this width.
    """
    needs = _Needs(bars, cells, canvas, theme)
    room = width - 2 * PADDING * canvas.unit
    choices: dict[int, float] = {}
    for most in BARS_IN_A_ROW:
        across = -(-needs.body // -(-needs.body // most))  # rows of even length: six bars are 3 and 3
        choices[across] = needs.factor(across, room, largest)
        if choices[across] >= min(GOOD, largest):
            break
    across = max(choices, key=lambda n: (min(choices[n], GOOD), n))
    return Arrangement(needs.rows(across, room, choices[across]), across, choices[across])


class _Needs:
    """How much room the chords of one chart need. Lengths are pixels."""

    def __init__(
        self, bars: Sequence[ChartBar], cells: Sequence[ChartCell], canvas: CanvasSize, theme: Theme
    ) -> None:
        self.bars, self.cells, self.unit = bars, cells, canvas.unit
        self.smallest = smallest_factor(theme)
        self.lead = int(bars[0].pickup and len(bars) > 1)
        self.body = len(bars) - self.lead
        self._held = [
            [n for n, cell in enumerate(cells) if cell.begin < bar + 1 and cell.end > bar]
            for bar in range(len(bars))
        ]
        lines = [
            [
                (cell_lines(one, canvas, theme, 1.0), cell_lines(one, canvas, theme, 0.0))
                for one in (cell, *cell.instead)
            ]
            for cell in cells
        ]
        self._symbols = [max(full[0].width for full, _ in some) for some in lines]
        self._numerals = [
            (max(full[1].width for full, _ in some), max(least[1].width for _, least in some))
            for some in lines
        ]
        small = canvas.pixels(max(theme.sizes.small, SMALLEST))
        shortest = [[_shortest(one) for one in (cell, *cell.instead)] for cell in cells]
        self._remarks = [
            max(width if width <= (KEY_REMARK if cell.key else REMARK) * self.unit else 0.0 for width in some)
            for cell, texts in zip(cells, shortest, strict=True)
            for some in ([plain(text, small, theme.weights.regular).width for text in texts],)
        ]
        self._meters = [
            max(
                (plain(part, small, theme.weights.strong).width for part in bar.meter.split("/")), default=0.0
            )
            + INSET * self.unit * bool(bar.meter)
            for bar in bars
        ]

    def factor(self, across: int, room: float, largest: float) -> float:
        """The largest share of the theme's size at which so many bars to a row have room."""
        least = self.smallest
        if self._width(across, least) > room:
            return min(least * room / self._width(across, least), least * 0.99)
        low, high = least, max(least, largest)
        if self._width(across, high) <= room:
            return high
        for _ in range(9):
            middle = (low + high) / 2
            low, high = (middle, high) if self._width(across, middle) <= room else (low, middle)
        return low

    def rows(self, across: int, room: float, factor: float) -> tuple[Row, ...]:
        """The rows, with `across` bars in each, that fill the room."""
        lead, needed = self._columns(across, factor)
        columns = _filled(needed, [1.0] * across, room - lead)
        return tuple(self._row(held, lead, columns, factor) for held in self._ranges(across))

    def _row(self, held: range, lead: float, columns: Sequence[float], factor: float) -> Row:
        x = PADDING * self.unit
        edges: list[float] = []
        if held.start < self.lead:
            edges.append(x)
        x += lead
        edges.append(x)
        for width in columns[: len(held) - (held.start < self.lead)]:
            x += width
            edges.append(x)
        pieces = [
            piece
            for place, bar in enumerate(held)
            for piece in self._pieces(bar, held.start, edges[place], edges[place + 1], factor)
        ]
        notes = any(self.cells[piece.cell].printed for piece in pieces if piece.shown)
        return Row(held, tuple(edges), tuple(pieces), notes)

    def _pieces(self, bar: int, first: int, left: float, right: float, factor: float) -> list[Piece]:
        """The chords of a bar in a row that begins with the bar `first`, between two of its lines."""
        held = self._held[bar]
        left += self._meters[bar]
        lengths = [min(self.cells[n].end, bar + 1) - max(self.cells[n].begin, bar) for n in held]
        widths = _filled([self._needed(n, bar, first, factor) for n in held], lengths, right - left)
        pieces = []
        for number, width in zip(held, widths, strict=True):
            pieces.append(Piece(number, bar, left, left + width, self._shown(number, bar, first)))
            left += width
        return pieces

    def _ranges(self, across: int) -> list[range]:
        starts = [0, *range(self.lead + across, len(self.bars), across)]
        return [range(a, b) for a, b in zip(starts, [*starts[1:], len(self.bars)], strict=True)]

    def _width(self, across: int, factor: float) -> float:
        lead, columns = self._columns(across, factor)
        return lead + sum(columns)

    def _columns(self, across: int, factor: float) -> tuple[float, list[float]]:
        """The room that the pickup needs, and that each column of bars needs."""
        lead, columns = 0.0, [0.0] * across
        for held in self._ranges(across):
            for place, bar in enumerate(held, -self.lead if held.start == 0 else 0):
                needed = self._bar(bar, held.start, factor)
                if place < 0:
                    lead = needed
                else:
                    columns[place] = max(columns[place], needed)
        return lead, columns

    def _bar(self, bar: int, first: int, factor: float) -> float:
        held = self._held[bar]
        needed = sum(self._needed(number, bar, first, factor) for number in held)
        return self._meters[bar] + max(needed, EMPTY * self.unit)

    def _needed(self, number: int, bar: int, first: int, factor: float) -> float:
        if not self._shown(number, bar, first):
            return HELD * self.unit
        full, least = self._numerals[number]
        cell = self.cells[number]
        arrow = ARROW * self.unit if cell.aims or cell.origin == "applied" else 0.0
        widest = max(self._symbols[number] * factor, max(full * factor, least) + arrow, self._remarks[number])
        return widest + (INSET + APART) * self.unit

    def _shown(self, number: int, bar: int, first: int) -> bool:
        """Whether a chord's symbol stands in a bar: in its first, and in the first of a row into which it is held."""
        return bar == int(self.cells[number].begin) or bar == first


def _shortest(cell: ChartCell) -> str:
    """A cell's small print in its fewest words."""
    return cell.small_print(len(cell.notes))[-1]


def _filled(needed: Sequence[float], shares: Sequence[float], room: float) -> list[float]:
    """Widths that fill the room: in proportion to the shares, but none less than it needs.

    Where all of them together need more than the room, each has what it needs.
    """
    tight: set[int] = set()
    while True:
        loose = [n for n in range(len(needed)) if n not in tight]
        rest, whole = room - sum(needed[n] for n in tight), sum(shares[n] for n in loose)
        widths = [
            needed[n] if n in tight or whole <= 0 else max(0.0, rest) * shares[n] / whole
            for n in range(len(needed))
        ]
        short = {n for n in loose if widths[n] < needed[n] - 1e-9}
        if not short:
            return widths
        tight |= short

"""Where the tones of a line and their labels stand, and how many bars have room in a row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import smallest_symbol_size, symbol
from studio.drawing.lettering.type import Line, plain
from studio.drawing.melody.line import SungChord, SungLine, SungRow, SungTone
from studio.drawing.themes.theme import SMALLEST, Theme

BARS_IN_A_ROW = (4, 3, 2, 1)
"""Bars that a row may hold, best first."""

GOOD = 0.7
"""Share of the theme's size of numerals that is large enough for labels to keep more bars in a row."""

SYMBOL = 0.63
"""Size of the chord symbols, in shares of the theme's: they explain, and do not lead."""

LEAD, APART, NUDGE, OVER, AFTER = 0.7, 0.4, 1.6, 0.3, 1.2
"""Units: from a bar line to what follows it; between labels; how far a label may be moved from its place, and how far
it may reach over a bar line; after a symbol."""

BARE = 2.0
"""Units across the mark of a tone that has no label."""


@dataclass(frozen=True)
class Placed:
    """A tone within one row: its number, where it starts and ends, and where its label's left edge stands.

    The label of a tone stands over its start.
    """

    number: int
    left: float
    right: float
    label_left: float
    line: Line
    label_width: float

    @property
    def label_right(self) -> float:
        return self.label_left + self.label_width

    @property
    def middle(self) -> float:
        """Where the middle of its label stands."""
        return self.label_left + self.label_width / 2


def broken(
    line: SungLine, bars: Sequence[tuple[Fraction, Fraction]], width: float, theme: Theme
) -> SungLine | None:
    """The line broken into rows for a panel `width` pixels wide: as many bars to a row as labels have room for.

    `bars` are (start, end). None where not even one bar to a row can be read.
    """
    tried: list[SungLine] = []
    for most in BARS_IN_A_ROW:
        rows = _rows(bars, most)
        sizes = [theme.sizes.numeral * share / 100 for share in range(100, 30, -6)]
        sizes = [*(size for size in sizes if size > SMALLEST), SMALLEST]
        for size in sizes:
            one = replace(line, rows=rows, size=size)
            if _fits(one, width, theme):
                tried.append(one)
                break
        if tried and tried[-1].size >= GOOD * theme.sizes.numeral:
            return tried[-1]
    return max(tried, key=lambda one: one.size, default=None)


def inset(line: SungLine) -> float:
    """Pixels from a bar line to the start of what sounds in the bar, so that a label there stands right of the line."""
    return LEAD * line.canvas.unit + label_height(line) / 2


def pixels_in_a_quarter(line: SungLine, width: float) -> float:
    """Pixels that a quarter note is wide: the longest row fills the panel."""
    room = width - 2 * PADDING * line.canvas.unit - inset(line)
    return room / float(max(row.end - row.start for row in line.rows))


def symbol_size(line: SungLine, theme: Theme) -> float:
    """Pixels of the chord symbols' roots."""
    return line.canvas.pixels(max(theme.sizes.symbol * SYMBOL, smallest_symbol_size()))


def chords_of(
    line: SungLine, row: SungRow, width: float, theme: Theme
) -> Iterator[tuple[SungChord, Line, bool]]:
    """The chords of a row, each with its symbol set and whether that has room.

    A chord that is held into the row stands there again if there is room for it.
    """
    quarter, size = pixels_in_a_quarter(line, width), symbol_size(line, theme)
    for chord in line.chords:
        if not (chord.start < row.end and chord.end > row.start):
            continue
        stretch = float(min(chord.end, row.end) - max(chord.start, row.start)) * quarter
        words = symbol(chord.symbol, size, theme.weights)
        fits = words.width + (LEAD + AFTER) * line.canvas.unit <= stretch
        if fits or chord.start >= row.start:
            yield chord, words, fits


@lru_cache(maxsize=256)
def placed(line: SungLine, row: SungRow, width: float, theme: Theme) -> tuple[Placed, ...] | None:
    """The tones of a row from left to right, their labels side by side; None where these have no room."""
    u = line.canvas.unit
    quarter, before = pixels_in_a_quarter(line, width), inset(line)
    left = PADDING * u + before
    found: list[Placed] = []
    free = 0.0
    for number, tone in enumerate(line.tones):
        if not (tone.start < row.end and tone.end > row.start):
            continue
        start, end = (
            left + float(at - row.start) * quarter
            for at in (max(tone.start, row.start), min(tone.end, row.end))
        )
        label = label_line(line, tone, theme)
        across = label_width(line, label)
        begun = max(tone.start, row.start)
        bar = left + float(max(at for at in row.lines if at <= begun) - row.start) * quarter - before
        wanted = max(start - across / 2, bar + LEAD * u)
        at = max(wanted, free)
        line_after = next(bar for bar in row.lines if bar > begun)
        most = left + float(line_after - row.start) * quarter + OVER * u
        most -= 0 if line_after == row.end else before
        if at > wanted + NUDGE * u or at + across > most:
            return None
        found.append(Placed(number, start, end, at, label, across))
        free = at + across + APART * u
    return tuple(found)


def label_line(line: SungLine, tone: SungTone, theme: Theme) -> Line:
    """A tone's label, set."""
    return plain(tone.label, line.canvas.pixels(line.size), theme.weights.strong) if tone.label else Line()


def label_height(line: SungLine) -> float:
    """Pixels that a label is tall with what is around it."""
    if not any(tone.label for tone in line.tones):
        return BARE * line.canvas.unit
    return CAP * line.canvas.pixels(line.size) + 1.9 * line.canvas.unit


def label_width(line: SungLine, label: Line) -> float:
    """Pixels that a label is wide with what is around it, or the mark that stands for it."""
    if not label.pieces:
        return BARE * line.canvas.unit
    return max(label_height(line), label.width + 2.4 * line.canvas.unit)


def _rows(bars: Sequence[tuple[Fraction, Fraction]], most: int) -> tuple[SungRow, ...]:
    """Rows as even as can be; a first bar that is only a pickup goes with the bars after it."""
    lead = int(len(bars) > 1 and bars[0][1] - bars[0][0] < (bars[1][1] - bars[1][0]) * Fraction(3, 4))
    body = len(bars) - lead
    across = -(-body // -(-body // most))
    starts = [0, *range(lead + across, len(bars), across)]
    held = [bars[a:b] for a, b in zip(starts, [*starts[1:], len(bars)], strict=True)]
    return tuple(
        SungRow(part[0][0], part[-1][1], (*(start for start, _ in part), part[-1][1])) for part in held
    )


def _fits(line: SungLine, width: float, theme: Theme) -> bool:
    return all(
        all(fits for _, _, fits in chords_of(line, row, width, theme))
        and placed(line, row, width, theme) is not None
        for row in line.rows
    )

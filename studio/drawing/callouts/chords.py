"""The chords callout: the chart of the excerpt as a lane of bars, with a bracket on what sounds now.

Under each symbol stands its numeral; what is applied, borrowed or a pivot says so in small print.
"""

from __future__ import annotations

from fractions import Fraction

from PIL import Image

from studio.drawing.chart.chart import ChartBar, ChartCell, arrange, smallest_factor
from studio.drawing.chart.lane import (
    OTHER_TALLEST,
    ROW_GAP,
    WIDE_TALLEST,
    Chords,
    Lane,
    Sounding,
    row_height,
    seen,
)
from studio.drawing.frame import PADDING, CanvasSize, panelled
from studio.drawing.lettering.reading_words import chord_words, numeral_words, remarks
from studio.drawing.themes.theme import Theme
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.callouts import CalloutOptions
from studio.theory.harmony.reading import Reading
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

MOST_BARS = 32
"""Bars in one callout: eight rows of four."""


class ChordsOptions(CalloutOptions):
    """Options of the chords callout."""

    numerals: bool = True
    functions: bool = False


class ChordsKind(Kind):
    """See the module."""

    name = "chords"
    says = "the chart of the excerpt: symbols, numerals, what is applied, borrowed or a pivot"
    Options = ChordsOptions
    example = "{kind: chords, functions: yes}"

    def compose(self, options: ChordsOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize.of(ask.canvas)
        readings = ask.readings(span)
        if not readings:
            ask.refuse("where", "no chords are written for these bars; write them under song.chords")
        bars = _bars(ask.time, span)
        if len(bars) > MOST_BARS:
            ask.refuse("where", f"{len(bars)} bars are too many for one picture; choose {MOST_BARS} at most")
        cells = _cells(ask.time, span, readings, options)
        theme = ask.theme
        if arrange(bars, cells, ask.room.width, canvas, theme).factor < smallest_factor(theme):
            ask.refuse("where", "a bar here holds more chords than can be read on a phone; choose fewer bars")
        states = tuple(
            (reading.at.start, reading.at.end, Sounding(number)) for number, reading in enumerate(readings)
        )
        telling = next((n for n, cell in enumerate(cells) if cell.notes or cell.aims), 0)
        return Composed(Chords(canvas, bars, cells), states, Sounding(telling), Sounding(), _alt(readings))

    def extent(self, content: Chords, width: int, theme: Theme) -> Extent:
        found = arrange(content.bars, content.cells, width, content.canvas, theme)
        heights = [row_height(row, content, found, theme) for row in found.rows]
        tallest = WIDE_TALLEST if content.canvas.width > content.canvas.height else OTHER_TALLEST
        taken, total = 0, 2 * PADDING
        for height in heights:
            if taken and total + height > tallest:
                break
            taken, total = taken + 1, total + height
        return Extent(max(heights) + 2 * PADDING - ROW_GAP, total - ROW_GAP)

    def draw(self, content: Chords, look: Sounding, size: tuple[int, int], theme: Theme) -> Image.Image:
        sheet = panelled(size, content.canvas, theme)
        found = arrange(content.bars, content.cells, size[0], content.canvas, theme)
        lane = Lane(sheet, content, found, look, theme)
        for number, top in seen(content, found, look, size[1], theme):
            lane.row(found.rows[number], top)
        return sheet.picture


KIND = ChordsKind()


def _bars(time: SongTime, span: Span) -> tuple[ChartBar, ...]:
    edges = _edges(time, span)
    longest = max(end - start for _, start, end in edges)
    return tuple(ChartBar(number, float((end - start) / longest)) for number, start, end in edges)


def _edges(time: SongTime, span: Span) -> list[tuple[int, Fraction, Fraction]]:
    """(number, start, end) in quarters of each bar that the span touches, cut to the span."""
    lines = [(number, at) for number, at in time.barlines(span) if span.start < at < span.end]
    first = time.place(span.start).bar
    starts = [(first, span.start), *lines]
    ends = [at for _, at in lines] + [span.end]
    return [(number, start, end) for (number, start), end in zip(starts, ends, strict=True)]


def _cells(
    time: SongTime, span: Span, readings: tuple[Reading, ...], options: ChordsOptions
) -> tuple[ChartCell, ...]:
    edges = _edges(time, span)

    def place(quarters: Fraction) -> float:
        for index, (_, start, end) in enumerate(edges):
            if quarters < end:
                return float(index + (quarters - start) / (end - start))
        return float(len(edges))

    cells = []
    for number, reading in enumerate(readings):
        following = readings[number + 1] if number + 1 < len(readings) else None
        new_key = number == 0 or reading.key != readings[number - 1].key
        aims = following is not None and _aims(reading, following)
        cells.append(
            ChartCell(
                begin=place(reading.at.start),
                end=place(reading.at.end),
                symbol=chord_words(reading.at.chord),
                numeral=numeral_words(reading) if options.numerals else None,
                notes=remarks(reading, aims, new_key, options.functions) if options.numerals else (),
                aims=aims and options.numerals,
            )
        )
    return tuple(cells)


def _aims(reading: Reading, following: Reading) -> bool:
    """Whether a chord leads to the one right after it, so that an arrow can say so."""
    if reading.kind == "substitute dominant":
        return reading.resolved
    return reading.kind == "applied" and following.numeral == reading.of


def _alt(readings: tuple[Reading, ...]) -> str:
    said = []
    for reading in readings:
        name = reading.at.chord.text if reading.at.chord else "no chord"
        said.append(f"{name} ({reading.numeral})" if reading.numeral else name)
    return f"Chord chart in {readings[0].key}: {', '.join(said)}."

"""The chords callout: the chart of the excerpt as a lane of bars, with a bracket on what sounds now.

Under each symbol stands its numeral; what is applied, borrowed or a pivot says so by a shape (an arrow, dashes
under the numeral, a frame around it) and in small print. Where a pass is played with another chord, that chord stands
in the place of the written one while it sounds, and says what it stands for.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise, takewhile

from PIL import Image
from pydantic import Field

from studio.drawing.chart.changed import changed_looks, origin, with_changes
from studio.drawing.chart.chart import ChartBar, ChartCell, smallest_factor
from studio.drawing.chart.lane import Chords, Lane, Sounding
from studio.drawing.chart.pages import least_and_wanted, paged, tops
from studio.drawing.chart.rows import arrange
from studio.drawing.frame import CanvasSize, panelled
from studio.drawing.lettering.reading_words import (
    chord_words,
    key_names,
    next_key_remarks,
    numeral_words,
    remarks,
)
from studio.drawing.otherwise import changes_said
from studio.drawing.paging import page_dots
from studio.drawing.themes.theme import Theme
from studio.music.key import Key
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.callouts import CalloutOptions
from studio.theory.harmony.applied import leads_to
from studio.theory.harmony.reading import Reading
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

MOST_BARS = 32
"""Bars in one callout: eight rows of four."""

_TALLEST = {"lower": (51.0, 78.0), "top": (24.0, 36.0)}
"""Units that a chart asks for at most on a wide canvas, and on another, where it would cover too much."""


class ChordsOptions(CalloutOptions):
    """Options of the chords callout."""

    numerals: bool = Field(
        default=True, description="Roman numerals under the symbols, and where chords come from"
    )
    functions: bool = Field(
        default=False, description="tonic, subdominant or dominant under plain chords of the key"
    )


class ChordsKind(Kind):
    """See the module."""

    name = "chords"
    says = "the chart of the excerpt: symbols, numerals, what is applied, borrowed or a pivot"
    slots = ("lower", "card", "left", "right", "top")
    Options = ChordsOptions
    example = "{kind: chords, functions: yes}"

    def compose(self, options: ChordsOptions, ask: Ask) -> Composed:
        span, canvas, theme = ask.the_span(), CanvasSize.of(ask.canvas), ask.theme
        readings = ask.readings(span)
        if not readings:
            ask.refuse("where", "no chords are written for these bars; write them under song.chords")
        if all(reading.at.chord is None for reading in readings):
            ask.refuse("where", "no chord sounds in these bars; choose others")
        bars = _Bars(ask.time, Span(min(span.start, readings[0].at.start), span.end), readings)
        if len(bars.edges) > MOST_BARS:
            ask.refuse(
                "where", f"{len(bars.edges)} bars are too many for one picture; choose {MOST_BARS} at most"
            )
        cells = with_changes(
            _cells(bars, readings, ask.key(readings[-1].at.end), options), readings, ask, options.numerals
        )
        slot = options.slot or self.slot(ask.canvas)
        wide, other = _TALLEST.get(slot, (ask.room.height / canvas.unit,) * 2)
        content = Chords(canvas, bars.charted, cells, wide if canvas.width > canvas.height else other)
        if arrange(content.bars, cells, ask.room.width, canvas, theme).factor < smallest_factor(theme):
            ask.refuse("where", "a bar here holds more chords than can be read on a phone; choose fewer bars")
        telling = next((n for n, cell in enumerate(cells) if cell.notes or cell.key or cell.aims), 0)
        still = Sounding(telling, int(cells[telling].begin))
        states = tuple(bars.states(readings))
        alt = _alt(readings, cells) + changes_said(ask, lambda one: one.of_harmony)
        return Composed(content, states, still, Sounding(), alt, changed=changed_looks(states, readings, ask))

    def extent(self, content: Chords, width: int, theme: Theme) -> Extent:
        return Extent(*least_and_wanted(content, width, theme))

    def draw(self, content: Chords, look: Sounding, size: tuple[int, int], theme: Theme) -> Image.Image:
        sheet = panelled(size, content.canvas, theme)
        pages = paged(content, size[0], size[1], theme)
        lane = Lane(sheet, content, pages.found, look, theme)
        page = pages.page(look, content)
        for number, top in tops(pages, page, content, size[1], theme):
            lane.row(pages.found.rows[number], top)
        page_dots(sheet, len(pages.pages), page, content.canvas, theme)
        return sheet.picture

    def last(self, look: Sounding) -> Sounding:
        return replace(look, alone=True)

    def quiet(self, look: Sounding, default: Sounding) -> Sounding:
        return Sounding(None, look.bar)


KIND = ChordsKind()


class _Bars:
    """The bars of a stretch of song, cut to it; what is left of a first bar in which nothing sounds is left out."""

    def __init__(self, time: SongTime, span: Span, readings: tuple[Reading, ...]) -> None:
        lines = [(number, at) for number, at in time.barlines(span) if span.start < at < span.end]
        starts = [(time.place(span.start).bar, span.start), *lines]
        ends = [at for _, at in lines] + [span.end]
        self.edges = [(number, start, end) for (number, start), end in zip(starts, ends, strict=True)]
        if len(self.edges) > 1 and self._cut(time, 0) and readings[0].at.start >= self.edges[1][1]:
            del self.edges[0]
        meters = [str(time.meter(number)) for number, _, _ in self.edges]
        changes = [False, *(one != two for one, two in pairwise(meters))]
        self.charted = tuple(
            ChartBar(
                number,
                meters[n] if changes[n] else "",
                n == 0 and self._hangs(time),
                self._ends_early(time, n),
            )
            for n, (number, _, _) in enumerate(self.edges)
        )

    def _hangs(self, time: SongTime) -> bool:
        """Whether the first bar is an upbeat: less than half of it is there."""
        number, start, end = self.edges[0]
        return 2 * (end - start) < time.meter(number).bar or (number < 1 and self._cut(time, 0))

    def _ends_early(self, time: SongTime, at: int) -> bool:
        """Whether the stretch ends within a bar: then it is the last one, and no line closes it."""
        number, _, end = self.edges[at]
        return (
            at == len(self.edges) - 1
            and number >= 1
            and end < time.bar_start(number) + time.meter(number).bar
        )

    def _cut(self, time: SongTime, at: int) -> bool:
        number, start, end = self.edges[at]
        return end - start < time.meter(number).bar

    def place(self, quarters: Fraction) -> float:
        """Where a moment stands, counted in bars of the chart."""
        for index, (_, start, end) in enumerate(self.edges):
            if quarters < end:
                return float(index + (quarters - start) / (end - start))
        return float(len(self.edges))

    def states(self, readings: tuple[Reading, ...]) -> Iterator[tuple[Fraction, Fraction, Sounding]]:
        """What sounds in each bar, stretches without a chord among it."""
        for bar, (_, first, last) in enumerate(self.edges):
            at = first
            for number, reading in enumerate(readings):
                start, end = max(first, reading.at.start), min(last, reading.at.end)
                if start >= end:
                    continue
                if at < start:
                    yield at, start, Sounding(None, bar)
                yield start, end, Sounding(number, bar)
                at = end
            if at < last:
                yield at, last, Sounding(None, bar)


def _cells(
    bars: _Bars, readings: tuple[Reading, ...], after: Key | None, options: ChordsOptions
) -> tuple[ChartCell, ...]:
    cells = []
    told: set[str] = set()
    for number, reading in enumerate(readings):
        following = readings[number + 1] if number + 1 < len(readings) else None
        cell = ChartCell(
            bars.place(reading.at.start), bars.place(reading.at.end), chord_words(reading.at.chord)
        )
        if not options.numerals:
            cells.append(cell)
            continue
        new_key = number == 0 or reading.key != readings[number - 1].key
        aims = following is not None and _aims(reading, following)
        next_key = _prepared(readings[number:], after)
        once = reading.kind == "blues"  # sevenths of the blues are like one another: told once
        notes = remarks(reading, aims, options.functions, told=once and reading.name in told)
        told.add(reading.name)
        cells.append(
            replace(
                cell,
                numeral=numeral_words(reading),
                notes=next_key_remarks(next_key) if next_key else notes,
                key=key_names(reading.key) if new_key else (),
                aims=aims,
                origin=origin(reading),
            )
        )
    return tuple(cells)


def _prepared(readings: Sequence[Reading], after: Key | None) -> Key | None:
    """The key whose dominant a chord is, where that key follows at once and no pivot says so already; `after` is the
    key when these chords are over."""
    first = readings[0]
    chord = first.at.chord
    if chord is None or first.pivot is not None or first.kind == "diatonic" or leads_to(chord) != ("V", 5):
        return None
    same = takewhile(lambda one: one.at.chord is not None and one.at.chord.root.pc == chord.root.pc, readings)
    following = readings[sum(1 for one in same if one.key == first.key) :]
    key = following[0].key if following else after
    leads = key is not None and key != first.key and (chord.root.pc + 5 - key.tonic.pc) % 12 == 0
    return key if leads else None


def _aims(reading: Reading, following: Reading) -> bool:
    """Whether a chord leads to the one right after it, so that an arrow can say so: to its target with whatever
    sevenths and in whatever inversion, to the next dominant of a chain, or from an applied ii to its V."""
    if reading.kind == "substitute dominant":
        return reading.resolved
    if reading.kind != "applied":
        return False
    shown = following.numeral_display
    if following.kind == "applied" and following.of == reading.of:
        return reading.numeral_display.base in ("ii", "I", "i") and shown.base == "V"
    return reading.resolved and not shown.of and f"{shown.accidental}{shown.base}" == reading.of


def _alt(readings: tuple[Reading, ...], cells: tuple[ChartCell, ...]) -> str:
    """What the picture says, from what is drawn."""
    said = []
    for number, (reading, cell) in enumerate(zip(readings, cells, strict=True)):
        name = reading.at.chord.text if reading.at.chord else "no chord"
        now = f"now {cell.key[0]}" if cell.key and number else ""
        numeral = cell.numeral.text if cell.numeral else ""
        words = [word for word in (now, numeral, *cell.notes[:1]) if word]
        said.append(f"{name} ({', '.join(words)})" if words else name)
    key = f" in {readings[0].key}" if any(cell.numeral for cell in cells) else ""
    return f"Chord chart{key}: {', '.join(said)}."

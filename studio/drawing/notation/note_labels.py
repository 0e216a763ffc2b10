"""What stands under the notes of a staff: degrees, intervals or counts, each at the moment from which it holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.notation.system import ChordOver, NoteLabel
from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.engraving import bars_touched
from studio.theory.melody.interval_names import interval_name
from studio.timeline.ask import Ask

_UP, _DOWN = "↑", "↓"
ARROWS = _UP + _DOWN

_PARTS_OF_A_BEAT = {
    Fraction(1, 4): "e", Fraction(1, 2): "&", Fraction(3, 4): "a", Fraction(1, 3): "&", Fraction(2, 3): "a",
}  # fmt: skip
"""How drummers and strummers count: 1 e & a; 1 & a where the beat divides in three (common practice)."""


class Bars:
    """The bars that are engraved: where moments of the song stand in them."""

    def __init__(self, time: SongTime, span: Span) -> None:
        self.time, self.span = time, span
        self.first, self.last = bars_touched(time, span)
        self.zero = time.bar_start(self.first)

    def at(self, quarters: Fraction) -> float:
        """Quarter notes from the start of the first bar that is engraved."""
        return round(float(quarters - self.zero), 6)


def degree_labels(part: str, ask: Ask, bars: Bars) -> tuple[NoteLabel, ...]:
    """What each note is over its chord: one label for each chord that it is held into; the highest note's first."""
    found: dict[tuple[str, float], NoteLabel] = {}
    readings = sorted(ask.melody(part, bars.span), key=lambda r: (r.span.start, -r.note.pitch.midi))
    for reading in readings:
        start = max(reading.span.start, bars.span.start)
        if reading.degree is None or not start < min(reading.span.end, bars.span.end):
            continue
        figure = reading.kind if reading.kind.startswith(("suspension", "retardation")) else ""
        name, at = note_id(ask, part, reading.note), bars.at(start)
        found[name, at] = NoteLabel(name, at, reading.degree.label, figure)
    return tuple(found.values())


def scale_degree_labels(part: str, ask: Ask, bars: Bars) -> tuple[NoteLabel, ...]:
    """What each note is in its key: one label, whatever chords it is held into."""
    found: dict[str, NoteLabel] = {}
    for reading in sorted(ask.melody(part, bars.span), key=lambda r: (r.span.start, -r.note.pitch.midi)):
        name, start = note_id(ask, part, reading.note), max(reading.note.onset, bars.span.start)
        found.setdefault(name, NoteLabel(name, bars.at(start), ask.scale_degree(reading), ""))
    return tuple(label for label in found.values() if label.text)


def interval_labels(part: str, ask: Ask, bars: Bars, notes: Sequence[Note]) -> tuple[NoteLabel, ...]:
    """The interval from each note of a line to the next, between the two, with an arrow for its direction."""
    found = []
    for one, two in pairwise(notes):
        steps = two.pitch.midi - one.pitch.midi
        arrow = _UP if steps > 0 else _DOWN if steps < 0 else ""
        since = max(one.onset, bars.span.start)
        found.append(
            NoteLabel(
                note_id(ask, part, two),
                bars.at(two.onset),
                arrow + interval_name(one.pitch, two.pitch),
                since=bars.at(since),
            )
        )
    return tuple(found)


def count_labels(
    onsets: Sequence[Fraction], ids: Sequence[Sequence[str]], bars: Bars
) -> tuple[NoteLabel, ...]:
    """How a musician counts what is struck: every beat by its number, and the parts of beats that have a stroke.

    `ids` are the notes that start at each of `onsets`.
    """
    struck = dict(zip(onsets, ids, strict=True))
    moments = sorted({*bars.time.beats(bars.span), *onsets})
    found = []
    for at in moments:
        said = _counted(bars.time, at)
        if said and at >= bars.span.start:
            found.append(NoteLabel(next(iter(struck.get(at, ())), ""), bars.at(at), said))
    return tuple(found)


def _counted(time: SongTime, at: Fraction) -> str:
    place, meter = time.place(at), time.meter(time.bar_at(at))
    if meter.compound:  # in 6/8 every eighth has its number
        eighth = (place.beat - 1) * 3
        return (
            str(int(eighth) + 1) if eighth.denominator == 1 else "&" if eighth % 1 == Fraction(1, 2) else ""
        )
    part = place.beat % 1
    return _PARTS_OF_A_BEAT.get(part, "") if part else str(int(place.beat))


def chords_over(ask: Ask, bars: Bars) -> tuple[ChordOver, ...]:
    """The chord symbols of the span; a chord that is struck again is not written again."""
    found: list[ChordOver] = []
    for reading in ask.readings(bars.span):
        over = ChordOver(chord_words(reading.at.chord), bars.at(reading.at.start))
        if not found or found[-1].symbol != over.symbol:
            found.append(over)
    return tuple(found)


Latest = Mapping[str, Sequence[tuple[float, int]]]
"""By note, when each of its labels begins to hold, in order, and the label's number."""


def labels_of_notes(labels: Sequence[NoteLabel]) -> Latest:
    found: dict[str, list[tuple[float, int]]] = {}
    for number, label in enumerate(labels):
        found.setdefault(label.id, []).append((label.at, number))
    return {name: sorted(held) for name, held in found.items()}


def holding(labels: Latest, lit: Iterable[str], at: float) -> tuple[int, ...]:
    """The number of each sounding note's latest label."""
    latest = []
    for name in lit:
        latest += [number for since, number in labels.get(name, ()) if since <= at + 1e-9][-1:]
    return tuple(sorted(latest))


def bar_edges(time: SongTime, span: Span) -> Iterator[Fraction]:
    """Where bars start within a span: there a page may turn."""
    return (at for _, at in time.barlines(span))


def note_id(ask: Ask, part: str, note: Note) -> str:
    """The id of a note's head in the engraving; of equal notes, the first's."""
    return head_id(ask.number(part, note))


def head_id(number: int) -> str:
    """The id of the head of a part's note with this number."""
    return f"n{number}"

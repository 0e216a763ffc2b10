"""What the tone reader knows of a line that its mode hangs on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.note_reading import NoteReading
from studio.theory.melody.tone import BLUE_NOTES, ORNAMENTS

Moment = tuple[Fraction, int]
"""Onset and MIDI number of a note."""

_EMBELLISH = (*ORNAMENTS, "incomplete neighbour", "appoggiatura", "escape")
_AGAIN_AND_AGAIN = 3
_LONGEST = {"offbeat": Fraction(1), "weak beat": Fraction(1, 2)}  # quarter notes, by the beat


@dataclass(frozen=True, slots=True)
class Context:
    """What is known besides the notes.

    ``embellishing`` are the notes that say little of the mode; ``chords`` the share of the span for which the
    chords under the line hold each pitch class (0 to 11); ``blue`` whether any note is called a blue note, and
    ``blue_thirds`` whether the third is, again and again.
    """

    embellishing: frozenset[Moment] = frozenset()
    chords: Mapping[int, float] = field(default_factory=dict)
    blue: bool = False
    blue_thirds: bool = False


def context_of(readings: Sequence[NoteReading], span: Span) -> Context:
    """The context of a line over a span; empty without readings."""
    blue = any(one.kind in BLUE_NOTES.values() for one in readings)
    thirds = sum(one.kind == BLUE_NOTES["third"] for one in readings)
    return Context(_embellishing(readings), _chord_shares(readings, span), blue, thirds >= _AGAIN_AND_AGAIN)


def _embellishing(readings: Sequence[NoteReading]) -> frozenset[Moment]:
    """The notes that say little of the mode: short chromatic ornaments off the strong beats, beside whose altered
    degree the key's own sounds in the line or in a chord under it; and the blue third of a chord (F over D7 in A).

    So the B♭ that encloses A in C is left out where there is a B, and the G of a tune in A Mixolydian is not,
    though its key is written as A major, if nothing has G♯.
    """
    ornaments = [one for one in readings if _is_ornament(one)]
    plain = _plain_notes(readings, {_moment(one.note) for one in ornaments})
    found = {_moment(one.note) for one in ornaments if _own_note(one) in plain}
    return frozenset(found | {_moment(one.note) for one in readings if _is_third_of_chord(one)})


def _is_ornament(reading: NoteReading) -> bool:
    if reading.kind not in _EMBELLISH or "chromatic" not in reading.traits or reading.beat is None:
        return False
    return reading.note.length <= _LONGEST.get(reading.beat.name, Fraction(0))


def _is_third_of_chord(reading: NoteReading) -> bool:
    in_key = reading.scale_degree
    return reading.kind == "blue third" and in_key is not None and in_key.degree.number not in (3, 7)


def _plain_notes(readings: Sequence[NoteReading], but: set[Moment]) -> set[NoteName]:
    """The names of the notes and of the tones of the chords under them, but for some of the notes."""
    found = {one.note.pitch.name for one in readings if _moment(one.note) not in but}
    for one in readings:
        if one.chord_at is not None and one.chord_at.chord is not None:
            found.update(one.chord_at.chord.notes())
    return found


def _own_note(reading: NoteReading) -> NoteName | None:
    """The note that the key has on the letter of this one."""
    if reading.scale_degree is None:
        return None
    letter = reading.note.pitch.name.letter
    return next((note for note in reading.scale_degree.key.scale() if note.letter == letter), None)


def _moment(note: Note) -> Moment:
    return note.onset, note.pitch.midi


def _chord_shares(readings: Sequence[NoteReading], span: Span) -> Mapping[int, float]:
    chords = {one.chord_at.start: one.chord_at for one in readings if one.chord_at is not None}
    shares = dict[int, float]()
    for at in chords.values():
        length = min(at.end, span.end) - max(at.start, span.start)
        if at.chord is None or length <= 0 or not span.length:
            continue
        for pc in at.chord.pcs:
            shares[pc] = shares.get(pc, 0.0) + float(length / span.length)
    return shares

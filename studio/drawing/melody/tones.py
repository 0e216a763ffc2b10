"""The notes of a tune as tones over its chords: what each is called, where it stands, what is said of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from studio.drawing.melody.line import Shape, SungTone
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.theory.melody.degrees import NoteReading
from studio.theory.wording import tone_words
from studio.timeline.ask import Ask

Labels = Literal["degrees", "scale degrees", "names", "none"]
"""What a note is called: over its chord, in its key, by its name, or not at all."""

BREATH = Fraction(1, 4)
"""Quarter notes of rest over which a line still goes on."""

_SHORT = {
    "passing": "passing",
    "neighbour": "neighbour",
    "escape": "escape",
    "pedal": "pedal",
    "colour tone": "colour",
    "appoggiatura": "appoggiatura",
    "anticipation": "anticipation",
    "blue third": "blue third",
}
"""Kinds of tones in a word or two."""


@dataclass(frozen=True)
class ToneRead:
    """A tone, and what it is called for someone who cannot see it."""

    tone: SungTone
    spoken: str


def tones_of(
    readings: Sequence[NoteReading], notes: Sequence[Note], labels: Labels, named: bool, span: Span, ask: Ask
) -> tuple[ToneRead, ...]:
    """The tones of a line that sound in the span; `named` is whether it is said what those foreign to the chord do."""
    ends = {one: min(one.end, two.onset) for one, two in pairwise(notes)}
    key = ask.key(notes[0].onset)  # one key for all, so that a pitch has one height
    found: list[ToneRead] = []
    for reading in _over_each_chord(sorted(readings, key=lambda reading: reading.span.start)):
        start = max(reading.span.start, span.start)
        end = min(reading.span.end, span.end, ends.get(reading.note, reading.note.end))
        if start >= end:
            continue
        label = _label(labels, ask, reading)
        tone = SungTone(
            start,
            end,
            _height(reading.note, key),
            label,
            _shape(reading),
            _names(reading) if named else (),
            joined=bool(found) and start - found[-1].tone.end <= BREATH,
        )
        found.append(ToneRead(tone, label or str(reading.note.pitch.name)))
    return tuple(found)


def _over_each_chord(readings: Sequence[NoteReading]) -> list[NoteReading]:
    """The readings in order; a note held into the same chord written again is read once."""
    found: list[NoteReading] = []
    for reading in readings:
        last = found[-1] if found else None
        if last and last.note == reading.note and _chord(last) == _chord(reading):
            found[-1] = replace(last, span=Span(last.span.start, reading.span.end))
        else:
            found.append(reading)
    return found


def _chord(reading: NoteReading) -> Chord | None:
    return reading.chord_at.chord if reading.chord_at else None


def _label(labels: Labels, ask: Ask, reading: NoteReading) -> str:
    if labels == "degrees":
        return reading.degree.label if reading.degree else ""
    if labels == "scale degrees":
        return ask.scale_degree(reading)
    return str(reading.note.pitch.name) if labels == "names" else ""


def _shape(reading: NoteReading) -> Shape:
    if reading.degree is None:
        return "no chord"
    return "chord tone" if reading.kind == "chord tone" else "other tone"


def _names(reading: NoteReading) -> tuple[str, ...]:
    """What a tone does, at length and in a word or two; nothing for a tone of its chord."""
    if _shape(reading) != "other tone":
        return ()
    kind, _, figures = reading.kind.partition(" ")
    if kind in ("suspension", "retardation"):
        return tone_words(reading), figures
    if reading.kind == "colour tone":
        return "colour tone", _SHORT[reading.kind]
    long = tone_words(reading)
    short = "pushed" if reading.pushed else _SHORT.get(reading.kind, "")
    return tuple(dict.fromkeys((long, short or (long if kind == "non-chord" else reading.kind))))


def _height(note: Note, key: Key | None) -> Fraction:
    """Scale steps, as the staff has them; a note raised out of its key stands half a step higher."""
    name, expected = note.pitch.name, 0
    if key is not None:
        expected = next((own.alter for own in key.scale() if own.letter == note.pitch.name.letter), 0)
    return note.pitch.height + Fraction(name.alter - expected, 2)

"""What is held on a keyboard over a stretch of song: what a part plays, or the chords of the chart under two hands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Literal

from studio.drawing.instruments.keys import HeldKey
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.lettering.symbols import SymbolWords
from studio.drawing.sounding import sounding
from studio.music.chord import Chord
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.melody.degree import degree_over
from studio.theory.parts.close_voicing import CloseVoicing, close_voicings
from studio.timeline.ask import Ask
from studio.timeline.changes import Changed

LOWEST, HIGHEST = 21, 108
"""A0 and C8, the ends of a piano."""

Labels = Literal["names", "degrees", "none"]


@dataclass(frozen=True)
class Moment:
    """What is held for a while: keys with their labels, and the chord if one is named; `instead`: the chord that is
    written, where another sounds."""

    start: Fraction
    end: Fraction
    keys: tuple[HeldKey, ...]
    pitches: tuple[Pitch, ...]
    chord: SymbolWords | None = None
    instead: SymbolWords | None = None


def changed(change: Changed, labels: Labels, ask: Ask, span: Span) -> Iterator[Moment]:
    """What is held where a pass is played otherwise, on the keys that sound."""
    both = change.span.intersection(span)
    if both is None:
        return
    edges = {both.start, both.end}
    edges |= {at for note in change.notes for at in (note.onset, note.end) if both.contains(at)}
    written = {at.start for at in ask.facts.song.chart.within(both)}
    for start, end, sounds in sounding(change.notes, edges | written, lambda note: (note.onset, note.end)):
        as_written = ask.facts.chord(start)
        chord = change.chord if change.of_harmony else as_written
        keys, pitches = _held(sounds, labels, chord)
        other = chord_words(as_written) if change.of_harmony and chord != as_written else None
        yield Moment(start, end, keys, pitches, chord_words(chord), other)


def played(part: str, labels: Labels, ask: Ask, span: Span) -> Iterator[Moment]:
    """What a part holds, from each moment at which that changes to the next."""
    notes = ask.notes(part, span)
    if not notes:
        ask.refuse("part", f"'{part}' has no notes in these bars")
    if outside := [note for note in notes if not LOWEST <= note.pitch.midi <= HIGHEST]:
        ask.refuse("part", f"{outside[0].pitch} is not on a piano's keyboard, which runs from A0 to C8")
    edges = {span.start, span.end} | {at for note in notes for at in (note.onset, note.end)}
    if labels == "degrees":
        edges |= {reading.at.start for reading in ask.readings(span)}
    inside = [at for at in edges if span.start <= at <= span.end]
    for start, end, sounds in sounding(notes, inside, lambda note: (note.onset, note.end)):
        chord = ask.facts.chord(start)
        keys, pitches = _held(sounds, labels, chord)
        yield Moment(start, end, keys, pitches)


def _held(
    sounds: Iterable[Note], labels: Labels, chord: Chord | None
) -> tuple[tuple[HeldKey, ...], tuple[Pitch, ...]]:
    """The keys of some notes and what they are, from low to high; a key under both hands is the right's."""
    by_height = {note.pitch.midi: note for note in sorted(sounds, key=lambda note: -note.staff)}
    held = [by_height[midi] for midi in sorted(by_height)]
    return tuple(_key(one.pitch, one.staff, labels, chord) for one in held), tuple(one.pitch for one in held)


def chords_held(labels: Labels, ask: Ask, span: Span) -> Iterator[Moment]:
    """The chords of the chart under two hands. A chord that is written again goes on."""
    found = [(reading.at.span, reading.at.chord) for reading in ask.readings(span)]
    if not any(chord for _, chord in found):
        ask.refuse(
            "kind", "no chords are written for these bars; write them under song.chords, or name a 'part'"
        )
    runs = [list(run) for _, run in groupby(found, key=lambda one: one[1])]
    joined = [(Span(run[0][0].start, run[-1][0].end), run[0][1]) for run in runs]
    voicings = iter(close_voicings([chord for _, chord in joined if chord is not None]))
    for at, chord in joined:
        if chord is None:
            yield Moment(at.start, at.end, (), (), chord_words(chord))
            continue
        voicing = next(voicings)
        keys = tuple(_hands(voicing, labels, chord))
        yield Moment(at.start, at.end, keys, (voicing.bass, *voicing.upper), chord_words(chord))


def _hands(voicing: CloseVoicing, labels: Labels, chord: Chord) -> Iterator[HeldKey]:
    yield _key(voicing.bass, 2, labels, chord)
    for pitch in voicing.upper:
        yield _key(pitch, 1, labels, chord)


def _key(pitch: Pitch, hand: int, labels: Labels, chord: Chord | None) -> HeldKey:
    name = str(pitch.name) if labels == "names" else ""
    if labels == "degrees" and chord is not None:
        name = degree_over(pitch.name, chord).label
    return HeldKey(pitch.midi, name, hand)

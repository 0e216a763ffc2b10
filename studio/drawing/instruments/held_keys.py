"""What is held on a keyboard over a stretch of song: what a part plays, or the chords of the chart under two hands."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Literal

from studio.drawing.instruments.keys import HeldKey
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.lettering.symbols import SymbolWords
from studio.drawing.sounding import sounding
from studio.music.chord import Chord
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.melody.degree import degree_over
from studio.theory.parts.close_voicing import CloseVoicing, close_voicings
from studio.timeline.ask import Ask

LOWEST, HIGHEST = 21, 108
"""A0 and C8, the ends of a piano."""

Labels = Literal["names", "degrees", "none"]


@dataclass(frozen=True)
class Moment:
    """What is held for a while: keys with their labels, and the chord if one is named."""

    start: Fraction
    end: Fraction
    keys: tuple[HeldKey, ...]
    pitches: tuple[Pitch, ...]
    chord: SymbolWords | None = None


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
        held = {
            note.pitch.midi: (_key(note.pitch, note.staff, labels, chord), note.pitch)
            for note in sorted(sounds, key=lambda note: -note.staff)
        }
        keys, pitches = tuple(zip(*(held[midi] for midi in sorted(held)), strict=True)) or ((), ())
        yield Moment(start, end, keys, pitches)


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

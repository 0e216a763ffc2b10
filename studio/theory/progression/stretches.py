"""Stretches of chords between silences, each chord with all the times that it is struck in a row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.progression.harmonies import chord_of


@dataclass(frozen=True, slots=True)
class Sound:
    """A chord from where it is first struck to where another one comes, and the key in which it starts."""

    chord: Chord
    key: Key
    span: Span


def stretches(readings: Sequence[Reading]) -> Iterator[list[Sound]]:
    """The chords of a progression between one N.C. and the next, in order."""
    for silent, sounding in groupby(readings, key=lambda reading: reading.at.chord is None):
        if not silent:
            yield [_sound(list(strokes)) for _, strokes in groupby(sounding, key=chord_of)]


def span_of(sounds: Sequence[Sound]) -> Span:
    """From where the first of some chords starts to where the last one ends."""
    return Span(sounds[0].span.start, sounds[-1].span.end)


def _sound(strokes: Sequence[Reading]) -> Sound:
    first, last = strokes[0], strokes[-1]
    return Sound(chord_of(first), first.key, Span(first.at.start, last.at.end))

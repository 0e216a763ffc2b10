"""What sounds in each bar, in a shape in which bars can be compared and transposed."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from studio.music.chord import Chord
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading

Sound = tuple[int, str, tuple[str, ...], int]
"""Root (pitch class), quality, changes, and the bass in semitones above the root."""
BarChords = tuple[tuple[Fraction, Sound | None], ...]
"""(quarters from the bar line, what sounds from there on; None for no chord)."""


def bar_chords(readings: Sequence[Reading], span: Span, time: SongTime) -> tuple[BarChords, ...]:
    """What sounds in each bar that starts within a span. Where a chord is struck again does not count."""
    return tuple(
        _bar(readings, start, start + time.meter(bar).bar)
        for bar, start in time.barlines(span)
        if bar > 0 and start < span.end
    )


def _bar(readings: Sequence[Reading], start: Fraction, end: Fraction) -> BarChords:
    found: list[tuple[Fraction, Sound | None]] = []
    for reading in readings:
        if reading.at.start < end and reading.at.end > start:
            sound = None if reading.at.chord is None else _sound(reading.at.chord)
            if not found or found[-1][1] != sound:
                found.append((max(reading.at.start, start) - start, sound))
    return tuple(found)


def _sound(chord: Chord) -> Sound:
    bass = 0 if chord.bass is None else (chord.bass.pc - chord.root.pc) % 12
    return chord.root.pc, chord.quality, chord.changes, bass


def moved(bar: BarChords, semitones: int) -> BarChords:
    """The bar with every chord moved up by so many semitones."""
    return tuple(
        (at, None if sound is None else ((sound[0] + semitones) % 12, *sound[1:])) for at, sound in bar
    )


def first_root(bars: Sequence[BarChords]) -> int | None:
    """The root of the first chord, as a pitch class."""
    return next((sound[0] for bar in bars for _, sound in bar if sound is not None), None)

"""Where notes lie on a neck."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from studio.music.pitch import NoteName, Pitch
from studio.theory.fretboard.shape import spelled
from studio.theory.fretboard.tuning import Tuning


@dataclass(frozen=True, slots=True)
class Place:
    """A place on the neck, and what it sounds: string 0 is the low one, fret 0 is open, counted from the capo."""

    string: int
    fret: int
    pitch: Pitch


def places_of_pitch(pitch: Pitch, tuning: Tuning, first: int = 0, last: int = 12) -> tuple[Place, ...]:
    """Everywhere that a pitch can be played from one fret to another, low string first; () if nowhere."""
    return tuple(
        Place(string, pitch.midi - midi, pitch)
        for string, midi in enumerate(tuning.midi)
        if _can(tuning, string, pitch.midi - midi, first, last)
    )


def places_of_notes(
    notes: Iterable[NoteName], tuning: Tuning, first: int = 0, last: int = 12
) -> tuple[Place, ...]:
    """Everywhere that any of these notes lies, in every octave, string by string and from the nut up.

    A scale, a chord's tones or a single note: all are notes. Each place is spelled as the notes given are.
    """
    names = tuple(notes)
    classes = {name.pc for name in names}
    return tuple(
        Place(string, fret, spelled(midi + fret, names))
        for string, midi in enumerate(tuning.midi)
        for fret in range(first, last + 1)
        if (midi + fret) % 12 in classes and _can(tuning, string, fret, first, last)
    )


def _can(tuning: Tuning, string: int, fret: int, first: int, last: int) -> bool:
    return first <= fret <= last and (fret == 0 or string not in tuning.open_only)

"""The name of a key found by sound: G♭ or F♯, as the chart and the melody are spelled."""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.theory.harmony.key_places import KeyPlace

_MOST = 7  # accidentals in a signature


def spelled(key: Key, places: Sequence[KeyPlace], melody: Sequence[Note]) -> Key:
    """The enharmonic name of ``key`` that lies nearest to how the places are written.

    Chords with their lengths decide, by the middle of their notes on the line of fifths; where there are none,
    the melody does. No key of more than seven accidentals is named.
    """
    middle = _middle(places, melody)
    fifths = [key.tonic.fifths + move for move in (-12, 0, 12)]
    named = [Key(NoteName.from_fifths(place), key.mode) for place in fifths]
    usable = [candidate for candidate in named if abs(candidate.signature) <= _MOST]
    # the notes of a scale lie around the fifth to its signature's right: D in the middle of C major
    return min(
        usable, key=lambda candidate: (abs(candidate.signature + 2 - middle), abs(candidate.signature))
    )


def _middle(places: Sequence[KeyPlace], melody: Sequence[Note]) -> float:
    written = [
        (note.fifths, place.span.length)
        for place in places
        if place.chord is not None
        for note in place.chord.notes()
    ]
    if not written:
        written = [
            (note.pitch.name.fifths, note.length)
            for note in melody
            if any(place.span.contains(note.onset) for place in places)
        ]
    total = float(sum(length for _, length in written))
    return sum(place * float(length) for place, length in written) / total if total else 2.0

"""The notes of a chord that voices are led through: all of them, or of a thick chord the few that are played.

Nobody voices the seven notes of an altered dominant. A chord of more than five notes keeps its third and its seventh,
the guide tones, and two of its tensions; it leaves out the root, which the bass has, the perfect fifth, what lies
under another tension, and of two ninths or two altered fifths one (common practice of jazz piano).
"""

from __future__ import annotations

from functools import lru_cache

from studio.music.chord import Chord
from studio.music.pitch import NoteName

MOST = 5
"""Notes of a chord that all are led."""

CORE = 4
"""Notes that are kept of a chord that has more."""

_LEFT_OUT = ("1", "5", "11", "♯9", "♯11", "♭5", "9", "♭9")
"""Degrees that are left out of a thick chord, the first of them first."""

_GUIDE_TONES = ("3", "♭3", "7", "♭7", "4", "2", "6")


@lru_cache(maxsize=1024)
def core_notes(chord: Chord) -> tuple[NoteName, ...]:
    """The notes of a chord that are led, in the order of its tones.

    >>> from studio.music.chord_reader import read_chord
    >>> [str(note) for note in core_notes(read_chord("G7alt"))]
    ['B', 'F', 'A♭', 'E♭']
    """
    if len(chord.notes()) <= MOST:
        return chord.notes()
    tones = list(chord.tones)
    others = [tone.degree for tone in tones[::-1] if tone.degree not in (*_LEFT_OUT, *_GUIDE_TONES)]
    for degree in (*_LEFT_OUT, *others):
        if len(tones) <= CORE:
            break
        tones = [tone for tone in tones if tone.degree != degree]
    return tuple(chord.root.transposed(tone.letters, tone.semitones) for tone in tones)

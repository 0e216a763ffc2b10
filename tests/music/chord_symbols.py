"""The chord symbols that tests of chords go through: every quality, with the changes that people write on it."""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.chord import Chord
from studio.music.chord_qualities import QUALITIES
from studio.music.pitch import NoteName, Pitch

# Common practice: which changes stand on which quality in fake books.
CHANGES: dict[str, str] = {
    "": "♭5 add2 add4 add9 add11 add♯11 add♭9 no5 add9,add11",
    "m": "♯5 add2 add4 add9 add11 add♭6 no5",
    "aug": "add9",
    "5": "add9",
    "sus4": "add2 add6 add♭9",
    "sus2": "add6",
    "6": "♯11 add11",
    "m6": "add11",
    "6/9": "♯11",
    "7": "♭5 ♯5 ♭9 ♯9 ♯11 ♭13 ♭5,♭9 ♭5,♯9 ♯5,♭9 ♯5,♯9 ♭9,♯9 ♭9,♯11 ♭9,♭13 ♯9,♯11 ♯9,♭13 ♯11,♭13 ♭9,♯11,♭13"
    " ♭9,♯9,♭13 add11 add13 no3 no5",
    "maj7": "♭5 ♯5 ♯9 ♯11 add13 no3",
    "m7": "♯5 ♭9 ♭13 add11 add13",
    "m7♭5": "add9 add11 ♭9 ♭13",
    "dim7": "add7 add9 add11 ♭13",
    "9": "♭5 ♯5 ♯11 ♭13 ♯11,♭13",
    "maj9": "♯5 ♯11",
    "m9": "♭5",
    "m11": "♭5",
    "11": "♭9",
    "13": "♭9 ♯9 ♯11 ♭5 ♯5 ♭9,♯11 ♯9,♯11",
    "maj13": "♯11",
    "7sus4": "♭9 ♭9,♭13 add3",
    "13sus4": "♭9",
    "maj9sus4": "add13",
}


def symbols(root: NoteName) -> tuple[Chord, ...]:
    """Every supported symbol on a root: each quality plain, and with each of its changes."""
    found = [Chord.of(root, quality) for quality in QUALITIES]
    for quality, many in CHANGES.items():
        found += [Chord.of(root, quality, changes.split(",")) for changes in many.split()]
    return tuple(dict.fromkeys(found))


def stack(names: Sequence[NoteName]) -> list[Pitch]:
    """The notes from low to high, each above the one before, within the nearest octave."""
    found: list[Pitch] = []
    for name in names:
        octave = 2 if not found else found[-1].octave - 1
        while found and Pitch(name, octave).midi <= found[-1].midi:
            octave += 1
        found.append(Pitch(name, octave))
    return found

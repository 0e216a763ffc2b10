"""What a chord is in a key: its tonic, its V, its leading-tone chord, and whether it rests there."""

from __future__ import annotations

from functools import lru_cache

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.key_places import KeyPlace


def above(note: NoteName, key: Key) -> int:
    """Semitones of a note above the tonic, 0 to 11."""
    return (note.pc - key.tonic.pc) % 12


@lru_cache(maxsize=16384)
def is_tonic(chord: Chord, key: Key) -> bool:
    """Whether it is the tonic's own chord; one that leaves its third open may be, a suspended seventh is not."""
    opened = chord.triad == "power" or (chord.triad == "suspended" and chord.seventh != "♭7")
    return above(chord.root, key) == 0 and (chord.triad == key.mode or opened)


@lru_cache(maxsize=16384)
def is_dominant(chord: Chord, key: Key) -> bool:
    """Whether it is V with its leading tone, or suspended before it."""
    dominant = chord.triad in ("major", "augmented", "suspended") and chord.seventh != "7"
    return dominant and above(chord.root, key) == 7


@lru_cache(maxsize=16384)
def is_leading(chord: Chord, key: Key) -> bool:
    """Whether it is the diminished chord on the leading tone."""
    return above(chord.root, key) == 11 and chord.triad == "diminished"


def rests(place: KeyPlace, key: Key) -> bool:
    """Whether the chord stands for itself: it is not on its way, nor the tonic's seventh that leads on to IV."""
    chord = place.chord
    if chord is None or place.moving:
        return False
    seventh = chord.triad == "major" and chord.seventh == "♭7"
    return not seventh or above(chord.root, key) != 0 or chord.root.pc in place.homes


def rests_at_home(place: KeyPlace, key: Key) -> bool:
    """Whether the chord is the tonic, and stands for itself."""
    chord = place.chord
    if chord is None or not rests(place, key):
        return False
    vamp = key.tonic.pc in place.homes and above(chord.root, key) == 0 and chord.triad == "suspended"
    return is_tonic(chord, key) or vamp


def points_home(chord: Chord, key: Key) -> bool:
    """Whether it is V or vii°."""
    return is_dominant(chord, key) or is_leading(chord, key)


@lru_cache(maxsize=16384)
def is_blues(chord: Chord, key: Key) -> bool:
    """Whether it may be the I7 or the IV7 of a blues."""
    on_place = key.mode == "major" and above(chord.root, key) in (0, 5)
    return on_place and chord.triad == "major" and chord.seventh == "♭7"

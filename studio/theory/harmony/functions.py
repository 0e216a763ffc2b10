"""Harmonic function: tonic, subdominant or dominant.

Common practice: I, vi and iii are tonic, IV and ii subdominant, V and vii° dominant; borrowed chords take the
function of the degree that they stand on. Two degrees depend on their neighbours: ♭VII is a dominant when the
tonic (or III, in minor) follows and a subdominant otherwise; ♭VI (VI of minor) stands for the tonic after V,
and is otherwise a subdominant. A tonic six-four before V is part of the dominant.
"""

from __future__ import annotations

from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony.reading import Function
from studio.theory.harmony.scale_degrees import ScaleDegree, root_degree

_FUNCTIONS: dict[tuple[int, int], Function] = {
    (1, 0): "tonic",
    (2, 0): "subdominant",
    (2, -1): "subdominant",
    (3, 0): "tonic",
    (3, -1): "tonic",
    (4, 0): "subdominant",
    (5, 0): "dominant",
    (6, 0): "tonic",
    (7, 0): "dominant",
}


def function_of(chord: Chord, key: Key, before: Chord | None, after: Chord | None) -> Function:
    """The function of a chord in a key, between the different harmonies before and after it."""
    degree = root_degree(key, chord.root, chord.triad == "diminished")
    place = (degree.number, degree.alter)
    if place == (1, 0) and is_cadential(chord, key, after):
        return "dominant"
    if chord.bass is not None and _over_dominant_root(chord, key, degree):
        return "dominant"
    if place == (2, -1) and chord.seventh == "♭7":
        return "dominant"
    if place == (7, -1):
        goals = (0, 3) if key.mode == "minor" else (0,)
        return "dominant" if after and key.above(after.root) in goals else "subdominant"
    if place == (6, -1):
        return "tonic" if is_dominant(before, key) else "subdominant"
    if place == (6, 0) and (chord.triad == "diminished" or key.mode == "minor"):
        return "subdominant"
    return _FUNCTIONS.get(place, "")


def is_dominant(chord: Chord | None, key: Key) -> bool:
    """Whether a chord is the V of the key."""
    return chord is not None and key.above(chord.root) == 7 and chord.triad != "minor"


def is_cadential(chord: Chord, key: Key, after: Chord | None) -> bool:
    """Whether a tonic chord over its fifth holds back the V that follows: the cadential six-four."""
    on_fifth = chord.bass is not None and (chord.bass.pc - chord.root.pc) % 12 == 7
    return on_fifth and chord.root.pc == key.tonic.pc and is_dominant(after, key)


def is_deceptive(chord: Chord, key: Key, earlier: tuple[Chord, ...]) -> bool:
    """Whether the chord on the sixth degree takes the tonic's place after a V that made us wait for it.

    ``earlier`` holds the two harmonies before, the nearer first. V7, or V after ii or IV or a six-four, makes
    the ear wait; the plain V of a loop such as I–V–vi–IV does not.
    """
    above = key.above(chord.root)
    if above != (9 if key.mode == "major" else 8) or not earlier or not is_dominant(earlier[0], key):
        return False
    if earlier[0].seventh == "♭7":
        return True
    return len(earlier) > 1 and (
        key.above(earlier[1].root) in (2, 5) or is_cadential(earlier[1], key, earlier[0])
    )


def _over_dominant_root(chord: Chord, key: Key, degree: ScaleDegree) -> bool:
    """F/G and Dm7/G in C: a subdominant chord over the root of V sounds as a suspended dominant."""
    assert chord.bass is not None
    return degree.number in (2, 4) and key.above(chord.bass) == 7 and chord.bass_tone is None

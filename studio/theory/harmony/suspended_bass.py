"""Slash chords that sound as a suspended dominant on their bass: F/G, Gm7/C, B♭maj9/C."""

from __future__ import annotations

from functools import lru_cache

from studio.music.chord import Chord

_SECOND, _FOURTH, _FIFTH, _SIXTH, _SEVENTH = 2, 5, 7, 9, 10
_FLAT_NINTH, _FLAT_THIRTEENTH = 1, 8
_FOREIGN = frozenset({3, 4, 6, 11})  # a third, a tritone or a major seventh above the bass: no suspension


@lru_cache(maxsize=4096)
def as_suspended(chord: Chord) -> Chord | None:
    """The suspended dominant that a slash chord sounds as, None for any other chord.

    It has a minor seventh above its bass, no third and no tritone, and a fourth or else fifth and ninth:
    F/G and Gm7/C are G9sus4 and C9sus4, B♭maj9/C is C13sus4, A♭m6/B♭ is B♭7sus4(♭9), Dm/G is G9(no3). Its fifth
    may be missing, as players leave it out. An inversion, as Csus4/G, is none of them.
    """
    if chord.bass is None or (chord.bass_tone is not None and chord.bass_tone.number in (1, 3, 5, 7)):
        return None
    above = frozenset((note.pc - chord.lowest.pc) % 12 for note in chord.notes())
    if _SEVENTH not in above or above & _FOREIGN or {_FLAT_NINTH, _SECOND} <= above:
        return None
    if _FOURTH not in above:
        open_ninth = {_FIFTH, _SECOND} <= above and _SIXTH not in above
        return Chord.of(chord.bass, "9", ("no3",)) if open_ninth else None
    ninth = "13sus4" if _SIXTH in above else "9sus4"
    quality = ninth if _SECOND in above else "7sus4"
    added = {_FLAT_NINTH: "♭9", _FLAT_THIRTEENTH: "♭13"}
    return Chord.of(chord.bass, quality, [change for place, change in added.items() if place in above])

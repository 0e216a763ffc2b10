"""One triad over another: the name of notes that no single chord holds."""

from __future__ import annotations

from studio.music.chord import Chord
from studio.music.pitch import NoteName

_LOWER = ("", "m", "7", "maj7", "m7")
_UPPER = ("", "m")


def polychord(bass: NoteName, names: tuple[NoteName, ...]) -> Chord | None:
    """The notes as a triad over a triad or seventh chord on the bass; None where they are not just that.

    F♯ A♯ C♯ over C E G is F♯|C. The plainest lower chord is taken, and a major upper one before a minor one.
    """
    sounding = frozenset(name.pc for name in names)
    if len(sounding) < 5:
        return None
    for lower in (Chord(bass, quality) for quality in _LOWER):
        for quality in _UPPER:
            for root in names:
                upper = Chord(root, quality)
                if root.pc != bass.pc and lower.pcs | upper.pcs == sounding:
                    return Chord.of(bass, lower.quality, (), None, upper)
    return None

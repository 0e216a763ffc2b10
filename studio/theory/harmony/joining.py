"""What it costs to set one reading after another.

Most readings ask nothing of the next. An applied chord wants its target, or another chord that leads there; a
ii wants the V that it prepares.
"""

from __future__ import annotations

from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony.applied import Applied
from studio.theory.harmony.candidate import CADENTIAL, Candidate
from studio.theory.harmony.standing import Standing

_CHAIN = 0.35  # the target comes as a dominant in its turn
_DECEPTIVE = 0.6  # the chord that stands in for the target comes: a step up from the dominant
_HARDLY = 2.0
_CHANGED = 0.6  # the target's root comes with another chord on it


def join_cost(left: Candidate, right: Candidate | None, following: Standing | None, key: Key) -> float:
    """Points for a reading ``left`` that is followed by ``following``, read as ``right``.

    ``right`` is None where the next chord is read in another key: then only the chord itself can answer.
    ``following`` is None at the end of the chart.
    """
    if following is None:
        return left.unmet
    if left.name == "related ii":
        goes_with = right is not None and right.kind in ("substitute dominant", "augmented sixth")
        return 0.0 if goes_with else left.unmet
    if left.applied is None or not left.unmet:
        return 0.0
    if left.applied.base == "ii":
        return 0.0 if right is not None and _prepares(left.applied, right) else left.unmet
    return _onward(left.unmet, left.applied, right, following, key)


def resolves(applied: Applied, following: Chord) -> bool:
    """Whether the chord that an applied dominant or its substitute points to follows."""
    return applied.target.is_met_by(following)


def leads_on(applied: Applied, right: Candidate, key: Key) -> bool:
    """Whether the next chord is on the way to the same target: V after vii°, or the six-four before V."""
    if right.name == CADENTIAL and right.applied is None:
        return key.above(applied.target.root) == 7
    onward = right.applied
    return onward is not None and onward.base != "ii" and onward.target.root.pc == applied.target.root.pc


def _prepares(applied: Applied, right: Candidate) -> bool:
    return (
        right.kind == "applied"
        and right.applied is not None
        and right.applied.base != "vii"
        and right.applied.target.root.pc == applied.target.root.pc
        and right.applied.target.triad == applied.target.triad
    )


def _onward(unmet: float, applied: Applied, right: Candidate | None, following: Standing, key: Key) -> float:
    """The cost of what comes after an applied dominant or leading-tone chord."""
    if resolves(applied, following.chord) or (right is not None and leads_on(applied, right, key)):
        return 0.0
    chord = following.model
    if chord.root.pc == applied.target.root.pc:
        dominant = chord.triad == "major" and chord.seventh != "7"
        return min(unmet, _CHAIN if dominant else _CHANGED)
    # a chord that hardly makes us wait cannot deceive either
    return _DECEPTIVE if _DECEPTIVE < unmet < _HARDLY and _stands_in(chord, applied) else unmet


def _stands_in(chord: Chord, applied: Applied) -> bool:
    """Whether a chord takes the target's place as vi takes I's: F after E7 in C, where Am was awaited."""
    above = (chord.root.pc - applied.target.root.pc) % 12
    if applied.target.triad == "minor":
        return above == 8 and chord.triad == "major" and chord.seventh != "♭7"
    return above == 9 and chord.triad == "minor"

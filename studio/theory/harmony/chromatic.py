"""Candidates with a trade name of their own: Neapolitan, augmented sixth, substitute dominant, blues, passing."""

from __future__ import annotations

from collections.abc import Iterator

from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony.applied import Applied, Target, targets
from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.scale_degrees import degree_in
from studio.theory.harmony.standing import Standing

_NEAPOLITAN, _NEAPOLITAN_IDLE = 0.5, 1.0
_AUGMENTED_SIXTH, _AMONG_SEVENTHS, _AMONG_SEVENTHS_IN_MINOR = 0.4, 1.0, 0.65
_FLAT_SIX = 0.3
_SUBSTITUTE, _SUBSTITUTE_OF_FIFTH, _SUBSTITUTE_IN_CHAIN = 0.45, 0.7, 1.05
_BLUES, _BLUES_PAIR = 0.9, 0.3
_COMMON_TONE, _COMMON_TONE_BEFORE = 0.9, 1.3
_PASSING, _PASSING_DIMINISHED, _SLIDING_DIMINISHED, _NEIGHBOUR = 0.9, 1.0, 1.2, 1.2

LOCAL_TONIC, FLAT_SIX, BLUES_TONIC = "local tonic", "♭VI7 to V7", "blues tonic"


def chromatic(standing: Standing, key: Key) -> Iterator[Candidate]:
    """The readings by trade names of a chord that does not belong to the key."""
    chord = standing.model
    above = key.above(chord.root)
    if chord.triad == "major" and chord.seventh == "♭7":
        yield from _augmented_sixth(standing, key, above)
        yield from _substitute(standing, key)
        yield from _blues(standing, key, above)
    elif above == 1 and chord.triad == "major":
        yield _on_lowered_second(standing, key)
    elif (source := _open_loan(chord, key)) and key.mode == "minor":
        yield Candidate("borrowed", _NEAPOLITAN_IDLE, f"from {source}", source=source)
        return
    if chord.triad == "diminished":
        yield from _diminished(standing)
    else:
        yield from _passing(standing)


def _on_lowered_second(standing: Standing, key: Key) -> Candidate:
    """The Neapolitan if it does that job, in first inversion or before V; else a loan from Phrygian.

    One that its own dominant brings in is a tonic for the moment.
    """
    root, before, after = standing.model.root.pc, standing.before, standing.after
    if after is not None and _prepares_five(after, key):
        return Candidate("Neapolitan", _NEAPOLITAN, "♭II before V")
    if standing.chord.lowest.pc == (root + 4) % 12:
        return Candidate("Neapolitan", _NEAPOLITAN_IDLE, "♭II6")
    dominant = before is not None and before.triad == "major" and before.seventh == "♭7"
    led = before is not None and dominant and before.root.pc == (root + 7) % 12
    source, name = f"{key.tonic} Phrygian", LOCAL_TONIC if led else ""
    return Candidate("borrowed", _NEAPOLITAN_IDLE, f"from {source}", name=name, source=source)


def _open_loan(chord: Chord, key: Key) -> str:
    """The mode that lends ♭II5 or ♭V5 to a riff: Phrygian or Locrian. Without a third they do no other job."""
    if chord.triad not in ("suspended", "power"):
        return ""
    degree = degree_in(key, chord.root)
    modes = {(2, -1): "Phrygian", (5, -1): "Locrian"}
    mode = modes.get((degree.number, degree.alter), "")
    return f"{key.tonic} {mode}" if mode else ""


def is_five(chord: Chord | None, key: Key) -> bool:
    """Whether a chord is V, or the six-four on its bass that holds V back."""
    if chord is None:
        return False
    above = key.above(chord.root)
    if above == 7:
        return chord.triad not in ("minor", "diminished")
    return above == 0 and chord.bass is not None and key.above(chord.bass) == 7


def _prepares_five(after: Chord, key: Key) -> bool:
    """Whether what follows is V, its six-four, vii°, or on the way there (V or vii° of V)."""
    above = key.above(after.root)
    diminished, dominant = after.triad == "diminished", after.triad == "major" and after.seventh != "7"
    return is_five(after, key) or (above in (6, 11) and diminished) or (above == 2 and dominant)


def _augmented_sixth(standing: Standing, key: Key, above: int) -> Iterator[Candidate]:
    """♭VI7 that moves to V: its seventh sounds as a sharp sixth above its root and pushes outward.

    Where its neighbours on both sides carry sevenths, as in a minor blues, the seventh is the style's own and
    slides down in parallel with the rest.
    """
    before, after = standing.before, standing.after
    if above != 8 or not is_five(after, key):
        return
    cost = _AUGMENTED_SIXTH
    if before is not None and after is not None and before.seventh and after.seventh:
        cost = _AMONG_SEVENTHS_IN_MINOR if key.mode == "minor" else _AMONG_SEVENTHS
    if cost == _AMONG_SEVENTHS_IN_MINOR:
        yield Candidate("blues", _FLAT_SIX, "♭VI7 of the minor blues", name=FLAT_SIX)
    degrees = {tone.degree for tone in standing.chord.tones}
    nation = "German" if "5" in degrees else "French" if "♭5" in degrees else "Italian"
    yield Candidate("augmented sixth", cost, "♭VI7 before V", name=f"{nation} augmented sixth")


def _substitute(standing: Standing, key: Key) -> Iterator[Candidate]:
    """A dominant seventh a half step above the chord that follows, in place of that chord's own dominant.

    What follows may be a chord of the key, one that is borrowed, or a chord of the key turned into a dominant.
    """
    after, root = standing.after, (standing.model.root.pc - 1) % 12
    if after is None or after.root.pc != root:
        return
    own = [goal for goal in (Target(key.tonic, key.mode), *targets(key)) if goal.root.pc == root]
    lent = [goal for goal in targets(key.parallel) if goal.root.pc == root]
    leads_on = after.triad == "major" and after.seventh == "♭7" and root != key.tonic.pc
    met = next((goal for goal in (*own, *lent) if goal.is_met_by(after)), None)
    if met is not None and not leads_on:
        cost = _SUBSTITUTE_OF_FIFTH if is_five(after, key) else _SUBSTITUTE
        yield _substitute_of(met, cost)
    elif own and after.triad != "diminished":
        fifth = is_five(after, key)
        yield _substitute_of(own[0], _SUBSTITUTE_OF_FIFTH if fifth else _SUBSTITUTE_IN_CHAIN)


def _substitute_of(goal: Target, cost: float) -> Candidate:
    why = f"in place of the V of {goal.root}"
    return Candidate("substitute dominant", cost, why, applied=Applied("V", goal))


def _blues(standing: Standing, key: Key, above: int) -> Iterator[Candidate]:
    """I7 and IV7 of a major key, whose sevenths are colour; surest side by side. In minor, I7 is the blues' tonic."""
    if key.mode == "minor" and above == 0 and not (standing.after and key.above(standing.after.root) == 5):
        yield _raised_tonic(standing, key)
    if key.mode != "major" or above not in (0, 5):
        return
    beside = [chord for chord in (standing.before, standing.after) if chord is not None]
    pair = any(
        key.above(chord.root) == 5 - above and chord.triad == "major" and chord.seventh == "♭7"
        for chord in beside
    )
    yield Candidate("blues", _BLUES_PAIR if pair else _BLUES, "flat seventh as colour", name="blues seventh")


def _raised_tonic(standing: Standing, key: Key) -> Candidate:
    """I7 of minor that does not lead to iv: at home in the blues; in inversion, a loan from Mixolydian."""
    if standing.chord.lowest.pc == key.tonic.pc:
        return Candidate("blues", _BLUES, "tonic of the blues", name=BLUES_TONIC)
    source = f"{key.tonic} Mixolydian"
    return Candidate("borrowed", _BLUES, f"from {source}", source=source)


def _diminished(standing: Standing) -> Iterator[Candidate]:
    """A diminished chord that keeps the root of a neighbour, or passes between the two."""
    chord, before, after = standing.model, standing.before, standing.after
    if chord.seventh != "♭7":
        if after is not None and after.triad in ("major", "minor") and after.root.pc in chord.pcs:
            yield Candidate("common-tone diminished", _COMMON_TONE, "keeps the root of what follows")
        elif before is not None and before.triad in ("major", "minor") and before.root.pc in chord.pcs:
            cost = _COMMON_TONE if standing.sways else _COMMON_TONE_BEFORE
            yield Candidate("common-tone diminished", cost, "keeps the root of what was")
    if before is not None and after is not None and _lies_between(standing, before, after):
        yield Candidate("passing", _PASSING_DIMINISHED, "between two", name="passing diminished")
    elif after is not None and chord.seventh != "♭7" and (chord.root.pc - after.root.pc) % 12 == 1:
        yield Candidate("passing", _SLIDING_DIMINISHED, "a half step down", name="sliding diminished")


def _lies_between(standing: Standing, before: Chord, after: Chord) -> bool:
    """Whether the roots, or the basses, go by step through the chord, with a half step in it."""
    for line in (_roots, _basses):
        one, here, two = line(before), line(standing.chord), line(after)
        moves = ((here - one) % 12, (two - here) % 12)
        if moves in ((1, 1), (1, 2), (2, 1), (11, 11), (11, 10), (10, 11)):
            return True
    return False


def _roots(chord: Chord) -> int:
    return chord.root.pc


def _basses(chord: Chord) -> int:
    return chord.lowest.pc


def _passing(standing: Standing) -> Iterator[Candidate]:
    """A chord that slides by half steps, shaped as a neighbour: between two (Em, E♭m, Dm) or away and back."""
    before, after, model = standing.before, standing.after, standing.model
    if before is None or after is None or model.triad not in (before.triad, after.triad):
        return
    moves = (model.root.pc - before.root.pc) % 12, (after.root.pc - model.root.pc) % 12
    if moves in ((1, 1), (11, 11)):
        yield Candidate("passing", _PASSING, "by half steps between two")
    if moves in ((1, 11), (11, 1)):
        yield Candidate("passing", _NEIGHBOUR, "a half step away and back", name="neighbour chord")

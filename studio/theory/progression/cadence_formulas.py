"""What kind of cadence two or three chords make, if they stand where a phrase ends.

Definitions, each with where it comes from:

- authentic, perfect and imperfect; half: Open Music Theory, "Introduction to Harmony, Cadences, and Phrase
  Endings": V–I, perfect when both are in root position and the melody has 1 over the tonic; x–V is half.
- plagal IV–I, double plagal ♭VII–IV–I: Open Music Theory, "Introduction to Harmonic Schemas in Pop Music".
- Aeolian ♭VI–♭VII–I, subtonic ♭VII–I, Lydian II–IV–I: Open Music Theory, "Modal Schemas".
- backdoor iv7–♭VII7–I: Coker, Elements of the Jazz Language for the Developing Improvisor, 1997, p. 82, as
  quoted by encyclopedias.
- deceptive, evaded, Phrygian half (iv6–V in minor), minor plagal, minor dominant and the dominant's
  tritone substitute: common practice of handbooks.

Chords are measured in the key of the chord that is arrived at, by ear: a seventh, a sus or a power chord does
not change what a chord does, only how sure we are.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.progression.applied_closes import on_five, on_other
from studio.theory.progression.cadence_kinds import CadenceKind, Formula
from studio.theory.progression.harmonies import Harmony, acts_as_dominant, in_root_position


def formula(before: Sequence[Harmony], arrival: Harmony, top: NoteName | None = None) -> Formula | None:
    """The cadence that ``arrival`` makes with the harmonies before it, the nearest of them last.

    ``top`` is the melody's note over the arrival, None where there is no melody to ask. None when the chords
    make no cadence.
    """
    if not before:
        return None
    key, last, goal = arrival.key, before[-1], arrival.first
    degree = key.above(goal.root)
    if degree == 0 and goal.triad != "diminished" and not _six_four(goal):
        found = _on_tonic(before, arrival, key, top)
        return _with_picardy(_sized(found, goal), arrival) if found else None
    if acts_as_dominant(arrival.fullest, key):
        return _half(last, arrival) if key.above(goal.lowest) == 7 else None
    if degree == (9 if key.mode == "major" else 8) or (degree == 8 and goal.triad == "major"):
        found = _deceptive(before, goal, key)
        if found is not None:
            return found
    return on_other(last, arrival)


def _six_four(chord: Chord) -> bool:
    return (chord.lowest.pc - chord.root.pc) % 12 in (6, 7, 8)


def _sized(found: Formula, goal: Chord) -> Formula:
    """Less sure where the tonic leaves its third open."""
    if goal.triad in ("major", "minor", "augmented"):
        return found
    return replace(found, sureness=round(found.sureness * 0.85, 2))


def _with_picardy(found: Formula, arrival: Harmony) -> Formula:
    """The major tonic that closes a piece in minor, named as its own reading names it."""
    if arrival.readings[0].name != "Picardy third":
        return found
    reason = f"{found.reason.removesuffix('.')}, with a Picardy third."
    return replace(found, reason=reason, picardy=True)


def _on_tonic(before: Sequence[Harmony], arrival: Harmony, key: Key, top: NoteName | None) -> Formula | None:
    """V–I, vii°–I and the ways round them."""
    chord, goal = before[-1].last, arrival.first
    whole, degree = before[-1].fullest, key.above(chord.root)
    if acts_as_dominant(whole, key) or (degree == 11 and chord.triad == "diminished"):
        return _authentic(before[-1], arrival, key, top)
    if arrival.readings[0].kind == "applied":
        return None
    earlier = before[-2].fullest if len(before) > 1 else None
    ways: dict[int, Callable[[Chord, Chord, Chord | None, Key], Formula | None]] = {
        1: _from_flat_second,
        2: _from_second,
        5: _from_fourth,
        7: _from_minor_fifth,
        10: _from_flat_seventh,
    }
    return ways[degree](whole, goal, earlier, key) if degree in ways else None


def _authentic(dominant: Harmony, arrival: Harmony, key: Key, top: NoteName | None) -> Formula:
    chord, goal = dominant.last, arrival.first
    leading = key.above(chord.root) == 11
    sureness = 0.95 if dominant.fullest.triad in ("major", "augmented", "diminished") else 0.75
    if not in_root_position(goal) and chord.bass_tone is not None and chord.bass_tone.number == 7:
        reason = f"{chord} has its seventh in the bass, which steps down to {goal} instead of closing."
        return Formula("evaded", reason, 0.75, runner_up="imperfect authentic cadence")
    if arrival.readings[-1].kind == "applied" and dominant.fullest.seventh == "♭7" and goal.seventh == "♭7":
        return Formula("evaded", f"{chord} leads home, but {goal} presses on at once.", 0.7)
    if leading:
        reason = f"{chord} leads to {goal} in place of {key.tonic.transposed(4, 7)}."
        return Formula("imperfect authentic", reason, min(sureness, 0.85))
    if (not in_root_position(chord) and key.above(chord.root) == 7) or not in_root_position(goal):
        turned = chord if not in_root_position(chord) else goal
        reason = f"The dominant leads home, but {turned} is not in root position."
        return Formula("imperfect authentic", reason, 0.85)
    falls = (
        f"{chord} falls to {goal}"
        if key.above(chord.root) == 7
        else f"{chord} stands for V and leads to {goal}"
    )
    if top is None:
        return Formula("authentic", f"{falls}, dominant to tonic in root position.", sureness)
    if top.pc == goal.root.pc:
        return Formula(
            "perfect authentic", f"{falls} in root position, and the melody ends on {top}.", sureness
        )
    reason = f"{falls}, but the melody ends on {top}, not on {goal.root}."
    return Formula("imperfect authentic", reason, sureness)


def _from_flat_second(chord: Chord, goal: Chord, earlier: Chord | None, key: Key) -> Formula | None:
    if chord.triad != "major":
        return None
    if chord.seventh == "♭7":
        stands = key.tonic.transposed(4, 7)
        reason = f"{chord} stands for {stands}7, a tritone away, and slides a half step down to {goal}."
        return Formula("tritone-substitute", reason, 0.85)
    return Formula("Phrygian", f"{chord} sinks a half step to {goal}, as in the Phrygian mode.", 0.7)


def _from_second(chord: Chord, goal: Chord, earlier: Chord | None, key: Key) -> Formula | None:
    """ii6/5–I is IV with an added sixth, and closes as IV does."""
    if chord.triad not in ("minor", "diminished") or key.above(chord.lowest) != 5:
        return None
    kind: CadenceKind = "plagal" if chord.triad == "minor" or key.mode == "minor" else "minor plagal"
    return Formula(kind, f"{chord} is the subdominant with a sixth, and leads to {goal}.", 0.7)


def _from_fourth(chord: Chord, goal: Chord, earlier: Chord | None, key: Key) -> Formula | None:
    if chord.triad == "minor" and key.mode == "major":
        fall = f"{key.tonic.transposed(5, 8)} falls to {key.tonic.transposed(4, 7)}"
        return Formula("minor plagal", f"{chord} leads to {goal}: {fall}.", 0.9)
    if earlier is not None and key.above(earlier.root) == 10 and earlier.triad == "major":
        reason = f"{earlier}, {chord} and {goal} are two steps of a fourth down, plagal twice."
        return Formula("double plagal", reason, 0.85, length=3)
    if (
        earlier is not None
        and key.above(earlier.root) == 2
        and earlier.triad == "major"
        and not earlier.seventh
    ):
        reason = f"{earlier} has the raised fourth, {chord} takes it back on the way to {goal}."
        return Formula("Lydian", reason, 0.65, length=3, runner_up="plagal cadence")
    return Formula("plagal", f"{chord} leads to {goal}, subdominant to tonic.", 0.85)


def _from_minor_fifth(chord: Chord, goal: Chord, earlier: Chord | None, key: Key) -> Formula | None:
    if chord.triad != "minor":
        return None
    return Formula("minor dominant", f"{chord} leads to {goal} without a leading note.", 0.75)


def _from_flat_seventh(chord: Chord, goal: Chord, earlier: Chord | None, key: Key) -> Formula | None:
    if chord.triad not in ("major", "power"):
        return None
    degree = None if earlier is None else key.above(earlier.root)
    if earlier is not None and degree == 8 and earlier.triad in ("major", "power"):
        reason = f"{earlier}, {chord} and {goal} climb by whole steps to the tonic."
        return Formula("Aeolian", reason, 0.9, length=3)
    minor_fourth = earlier is not None and degree == 5 and earlier.triad == "minor"
    if key.mode == "major" and goal.triad != "minor" and (minor_fourth or chord.seventh == "♭7"):
        way = f"{earlier} and {chord} lead" if minor_fourth else f"{chord} leads"
        reason = f"{way} to {goal} from a whole step below, by the back door."
        return Formula("backdoor", reason, 0.9 if minor_fourth else 0.75, length=3 if minor_fourth else 2)
    if goal.triad == "minor":
        return Formula("subtonic", f"{chord} steps up to {goal}, without a leading note.", 0.8)
    return Formula("Mixolydian", f"{chord} steps up to {goal}, with the flat seventh of Mixolydian.", 0.8)


def _half(before: Harmony, arrival: Harmony) -> Formula | None:
    chord, goal, key = before.last, arrival.first, arrival.key
    if acts_as_dominant(chord, key) and chord.lowest.pc == goal.lowest.pc:
        return None
    stop = arrival.fullest if goal.triad == "suspended" else goal
    bass = key.above(chord.lowest)
    if key.mode == "minor" and key.above(chord.root) == 5 and bass == 8:
        falls = f"the bass falls a half step, {chord.lowest}–{goal.lowest}"
        return Formula("Phrygian half", f"{chord} leads to {stop} and {falls}.", 0.9)
    if key.mode == "minor" and bass == 8:
        reason = f"The phrase stops on {stop}, which leaves it open; the bass falls a half step into it."
        return Formula("half", reason, 0.8, runner_up="Phrygian half cadence")
    other = "authentic cadence on V" if on_five(before, arrival) else ""
    reason = f"The phrase stops on {stop}, the dominant, which leaves it open."
    return Formula("half", reason, 0.85, runner_up=other)


def _deceptive(before: Sequence[Harmony], goal: Chord, key: Key) -> Formula | None:
    """V–vi (V–VI in minor), where V7, or V after ii, IV or a six-four, makes the ear wait: I–V–vi is motion."""
    dominant = before[-1]
    if not acts_as_dominant(dominant.fullest, key) or not in_root_position(dominant.last):
        return None
    seventh = dominant.fullest.seventh == "♭7"
    if not (seventh or is_prepared(before)):
        return None
    home = key.tonic if key.mode == "major" else f"{key.tonic}m"
    reason = f"{dominant.last} should lead to {home}, but {goal} comes instead."
    return Formula("deceptive", reason, 0.9 if seventh else 0.8)


def is_prepared(before: Sequence[Harmony]) -> bool:
    """Whether the last of these harmonies is V, and follows ii, IV or a six-four that is not V's own neighbour."""
    if len(before) < 2 or not acts_as_dominant(before[-1].fullest, before[-1].key):
        return False
    key, chord = before[-1].key, before[-2].last
    above = key.above(chord.root)
    if above == 0 and key.above(chord.lowest) == 7:
        return len(before) < 3 or not acts_as_dominant(before[-3].fullest, key)
    return above == 5 or (above == 2 and chord.triad != "major")

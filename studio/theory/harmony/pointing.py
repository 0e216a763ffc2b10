"""Candidates that point to another chord: applied dominants and leading-tone chords, and the ii before them."""

from __future__ import annotations

from collections.abc import Iterator

from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony.applied import Applied, Target, leads_to, targets
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.candidate import CADENTIAL, NEVER, Candidate
from studio.theory.harmony.standing import Standing

_MET = 0.5
_MET_OUTSIDE = 0.7  # it points to a chord that is itself borrowed
_TRIAD_OUTSIDE = 1.2  # without a seventh it may as well be one borrowed chord among others
_SUPERTONIC = 0.25  # little, as the dominant that it needs pays its own way
_OWN_SUPERTONIC = 0.6  # a chord of the key needs no other reading, but may have this one
_RELATED = 0.5
_RESPELLED = 0.8
_UNMET = 1.2
_UNMET_TRIAD = 1.5  # without a seventh a chord points less plainly
_UNMET_BACKWARD = 1.0  # but it may hang on to its target that was just heard (a back-relating dominant)
_UNMET_MEDIANT = 2.1  # and nobody waits for iii


def pointing(standing: Standing, key: Key, how: str) -> Iterator[Candidate]:
    """The applied readings of a chord; ``how`` is how it belongs to the key, "" if it does not."""
    if (leads := leads_to(standing.model)) is not None:
        yield from _applied(standing, key, how, *leads)
    if standing.chord.quality == "dim7" and not standing.chord.changes and not how:
        yield from _respelled(standing, key)
    yield from _supertonic(standing, key, how)


def _applied(standing: Standing, key: Key, how: str, base: str, semitones: int) -> Iterator[Candidate]:
    """V or vii° of a chord of the key, or of a borrowed one if that follows."""
    root = (standing.model.root.pc + semitones) % 12
    if root == key.tonic.pc:
        return
    pointed = [target for target in targets(key) if target.root.pc == root]
    met = next((target for target in pointed if target.is_met_by(standing.after)), None)
    if how and (met is None or not _may_be_applied(standing.model, key)):
        return
    if pointed:
        target = met or pointed[0]
        unmet = NEVER if how else _disappointment(standing, key, base, target)
        yield _candidate(base, target, _cost(standing, key), unmet)
    after = standing.after
    if met is None and not how and after is not None and after.root.pc == root and _may_rest(after):
        cost = _MET_OUTSIDE if standing.model.seventh or base == "vii" else _TRIAD_OUTSIDE
        yield _candidate(base, Target(after.root, after.triad), cost, NEVER)


def six_four_of(standing: Standing, key: Key) -> Candidate | None:
    """The six-four that holds back the V of a chord of the key: C/G before G7, in F. It comes to its bass anew."""
    chord, before, after = standing.chord, standing.before, standing.after
    fifth = (chord.root.pc + 7) % 12
    if after is None or chord.seventh or chord.lowest.pc != fifth or (before and before.lowest.pc == fifth):
        return None
    dominant = after.triad in ("major", "augmented", "suspended") and after.seventh != "7"
    if not dominant or (after.root.pc, after.lowest.pc) != (fifth, fifth):
        return None
    if not after.seventh and (belongs(after, key) or after.root.pc == key.tonic.pc):
        return None
    goals = (goal for goal in targets(key) if goal.root.pc == chord.root.pc and goal.triad == chord.triad)
    goal = next(goals, None)
    if goal is None:
        return None
    applied = Applied("I" if goal.triad == "major" else "i", goal)
    return Candidate(
        "applied", 0.0, f"holds back V of {goal.root}", name=CADENTIAL, applied=applied, unmet=NEVER
    )


def _may_rest(chord: Chord) -> bool:
    """Whether a chord can be pointed to: a major or minor one that does not lead on."""
    return chord.triad == "minor" or (chord.triad == "major" and chord.seventh != "♭7")


def _candidate(base: str, target: Target, cost: float, unmet: float) -> Candidate:
    why = f"{base} of {target.root}"
    return Candidate("applied", cost, why, applied=Applied(base, target), unmet=unmet)


def _may_be_applied(model: Chord, key: Key) -> bool:
    """Whether a chord of the key has an applied reading worth telling: with a seventh, or VII of minor."""
    return bool(model.seventh) or (key.mode == "minor" and key.above(model.root) == 10)


def _cost(standing: Standing, key: Key) -> float:
    """What an applied reading costs by itself.

    A seventh on the tonic that moves to IV7 is the blues, and a plain triad on the tonic or on IV of minor
    (the Picardy third, the Dorian IV) is itself first, unless it presses on.
    """
    model, above = standing.model, key.above(standing.model.root)
    if above == 0 and key.mode == "major" and standing.after is not None and standing.after.seventh == "♭7":
        return 2 * _MET
    if key.mode == "minor" and above in (0, 5) and not model.seventh and not standing.leads_on:
        return 1.5 * _MET
    return _MET


def _disappointment(standing: Standing, key: Key, base: str, target: Target) -> float:
    """What it costs an applied reading when its target does not follow.

    A tonic, an augmented chord and a diminished one that is spelled to go elsewhere (E♭dim7 does not lead to
    E, as D♯dim7 would), or that keeps the root of what follows, point nowhere unless the target comes.
    """
    model, after = standing.model, standing.after
    blue = key.mode == "minor" and model.seventh == "♭7"  # I7, which may wait for iv as well
    if model.triad == "augmented" or (model.root.pc == key.tonic.pc and not blue):
        return NEVER
    if base == "vii":
        spelled = model.root.step == (target.root.step - 1) % 7
        keeps = after is not None and after.triad in ("major", "minor") and after.root.pc in model.pcs
        return _UNMET if spelled and not keeps else NEVER
    if model.seventh:
        return _UNMET
    if target.is_met_by(standing.before):
        return _UNMET_BACKWARD
    mediant = key.mode == "major" and key.above(target.root) == 4
    return _UNMET_MEDIANT if mediant else _UNMET_TRIAD


def _respelled(standing: Standing, key: Key) -> Iterator[Candidate]:
    """A diminished seventh that resolves as if another tone were its root, as B°7 to Am in C."""
    chord = standing.chord
    goals = (Target(key.tonic, key.mode), *targets(key))
    for tone in chord.notes()[1:]:
        root = (tone.pc + 1) % 12
        goal = next((goal for goal in goals if goal.root.pc == root and goal.is_met_by(standing.after)), None)
        if goal is None:
            continue
        meant = Chord.of(goal.root.transposed(-1, -1), "dim7", (), chord.lowest)
        why = f"sounds as vii°7 of {goal.root}"
        if goal.root != key.tonic:
            applied = Applied("vii", goal)
            yield Candidate("applied", _RESPELLED, why, applied=applied, unmet=NEVER, meant=meant)
        elif key.mode == "minor":
            yield Candidate("diatonic", _RESPELLED, why, how="harmonic", meant=meant)
        else:
            yield Candidate("borrowed", _RESPELLED, why, source=str(key.parallel), meant=meant)


def _supertonic(standing: Standing, key: Key, how: str) -> Iterator[Candidate]:
    """The ii of an applied dominant that follows (Gm7 before C7, in C), or of a substitute (E♭m7 before A♭7)."""
    model, after = standing.model, standing.after
    minor = model.triad == "minor" and model.seventh in ("", "♭7")
    half = model.triad == "diminished" and model.seventh == "♭7"
    if after is None or not (minor or half):
        return
    if (after.root.pc - model.root.pc) % 12 != 5 or after.triad not in ("major", "augmented", "suspended"):
        return
    if minor and not how and after.seventh == "♭7":
        why = "ii before a substitute dominant"
        yield Candidate("other", _RELATED, why, name="related ii", unmet=NEVER)
    root = (model.root.pc - 2) % 12
    neapolitan = Target(key.tonic.transposed(1, 1), "major")
    goals = (*targets(key), *targets(key.parallel), neapolitan)
    goal = next((goal for goal in goals if goal.root.pc == root), None)
    if goal is None or root == key.tonic.pc:
        return
    cost, why = _OWN_SUPERTONIC if how else _SUPERTONIC, f"ii before the V of {goal.root}"
    other = Target(
        goal.root, "minor" if goal.triad == "major" else "major"
    )  # D7 may go to G where Gm was due
    for target in (goal, other):
        yield Candidate("applied", cost, why, applied=Applied("ii", target), unmet=NEVER)

"""All readings that a chord admits in a key."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony.applied import Applied, targets
from studio.theory.harmony.belonging import belongs, borrowed_from, core_pcs, scale_pcs
from studio.theory.harmony.candidate import CADENTIAL, NEVER, Candidate
from studio.theory.harmony.chromatic import chromatic
from studio.theory.harmony.functions import function_of, is_cadential, is_dominant
from studio.theory.harmony.pointing import pointing, six_four_of
from studio.theory.harmony.standing import Standing
from studio.theory.harmony.suspended_bass import as_suspended

_HARMONIC = 0.05
_BORROWED = 1.0
_HALF_AT_HOME = 0.4  # the Picardy third and the Dorian IV, in minor
_PRESSING = 0.6  # unless they press on: see Standing.leads_on
_RARE_LOAN, _LYDIAN_TWO = 1.3, 2.2
_MEDIANT, _RAISED_FIFTH, _OTHER = 1.6, 1.4, 2.5
_SUSPENDED_V, _SUSPENDED_OF_OTHER = (
    0.0,
    0.3,
)  # F/G as V9sus4 of C, or of C where that is another chord of the key
_OVER_SUSPENDED = 0.5  # what F/G costs besides as IV, where it makes such a dominant
_OVER_SIX_FOUR = 0.7  # what C/G costs besides as V of F, where it holds back G7


def candidates(standing: Standing, key: Key) -> tuple[Candidate, ...]:
    """The readings of a chord in a key, at least one; the plain ones first."""
    how = belongs(standing.model, key)
    found: list[Candidate] = []
    if how:
        found.append(_diatonic(standing, key, how))
    else:
        found += [*_borrowed(standing, key), *chromatic(standing, key)]
    found += pointing(standing, key, how)
    if suspended := _suspended(standing, key):
        found = [replace(plain, cost=plain.cost + _OVER_SUSPENDED) for plain in found] + [suspended]
    if six_four := six_four_of(standing, key):
        found = [replace(plain, cost=plain.cost + _OVER_SIX_FOUR) for plain in found] + [six_four]
    if not how and not any(candidate.kind == "borrowed" for candidate in found):
        found.append(_foreign(standing, key))
    return tuple(found)


def _diatonic(standing: Standing, key: Key, how: str) -> Candidate:
    cost = 0.0 if how == "natural" else _HARMONIC
    return Candidate("diatonic", cost, f"belongs to {key}", name=_six_four(standing, key), how=how)


def _suspended(standing: Standing, key: Key) -> Candidate | None:
    """A slash chord as the suspended dominant that it sounds as: V of the key, or of the chord that follows."""
    meant = as_suspended(standing.chord)
    if meant is None:
        return None
    if key.above(meant.root) == 7:
        return Candidate("diatonic", _SUSPENDED_V, "sounds as V", how="natural", meant=meant)
    goals = (goal for goal in targets(key) if goal.root.pc == (meant.root.pc + 5) % 12)
    goal = next((goal for goal in goals if goal.is_met_by(standing.after)), None)
    if goal is None:
        return None
    why, applied = f"sounds as V of {goal.root}", Applied("V", goal)
    return Candidate("applied", _SUSPENDED_OF_OTHER, why, applied=applied, unmet=NEVER, meant=meant)


def _six_four(standing: Standing, key: Key) -> str:
    """What a triad over its fifth does, where handbooks have a name for it; "" for other chords."""
    chord, before, after = standing.chord, standing.before, standing.after
    if chord.bass is None or (chord.bass.pc - chord.root.pc) % 12 != 7 or chord.seventh:
        return ""
    if is_cadential(chord, key, after):
        return CADENTIAL
    if before is None or after is None:
        return ""
    came, goes = (other.lowest.pc for other in (before, after))
    moves = (chord.bass.pc - came) % 12, (goes - chord.bass.pc) % 12
    if moves == (0, 0):
        return "pedal six-four"
    if _arrives(chord, before, key):
        return "arrival six-four"
    return "passing six-four" if set(moves) <= {1, 2} or set(moves) <= {10, 11} else ""


def _arrives(chord: Chord, before: Chord, key: Key) -> bool:
    """Whether a tonic over its fifth is where a bass that rises from IV, iv or ♯iv° gets to: F, F♯°7, C/G.

    It stands for V that might follow and does not; between two chords that belong together (F/A C/G F, or
    Am C/G F on the way down) the same chord is passed through.
    """
    if chord.root.pc != key.tonic.pc or (chord.lowest.pc - before.lowest.pc) % 12 not in (1, 2):
        return False
    raised_fourth = key.above(before.root) == 6 and before.triad == "diminished"
    return raised_fourth or function_of(before, key, None, None) == "subdominant"


def _borrowed(standing: Standing, key: Key) -> Iterator[Candidate]:
    model = standing.model
    if source := borrowed_from(model, key):
        cost = _loan_cost(standing, key)
        yield Candidate("borrowed", cost, f"from {source}", name=_loan_name(standing, key), source=source)
    elif source := _rare_source(model, key):
        two = key.above(model.root) == 2 and model.triad == "major"
        cost = _RARE_LOAN if not two else _BORROWED if _is_lydian_two(standing, key) else _LYDIAN_TWO
        yield Candidate("borrowed", cost, f"from {source}", source=source)


def _loan_cost(standing: Standing, key: Key) -> float:
    model, above = standing.model, key.above(standing.model.root)
    if key.mode == "minor" and model.triad == "major" and (above == 0 or (above == 5 and not model.seventh)):
        return _PRESSING if standing.leads_on else _HALF_AT_HOME
    return _BORROWED


def _loan_name(standing: Standing, key: Key) -> str:
    """The trade's name of a borrowed chord, "" if it has none."""
    model, above = standing.model, key.above(standing.model.root)
    if is_cadential(standing.chord, key, standing.after):
        return CADENTIAL
    if model.triad != "major":
        return ""
    if key.mode == "minor" and above == 0 and is_dominant(standing.before, key) and not model.seventh:
        return "Picardy third"
    if above == 10 and model.seventh == "♭7" and _is_on(standing.after, key, 0):
        return "backdoor dominant"
    return ""


def _is_lydian_two(standing: Standing, key: Key) -> bool:
    """Whether a major II is colour and no dominant.

    It moves to IV without a seventh; or it sways to and fro with I, somewhere in the chart; or it stands on I's bass,
    whose Lydian colour it is.
    """
    before, after = standing.before, standing.after
    from_home = before is not None and before.bass is None and _is_on(before, key, 0)
    on_home = key.above(standing.chord.lowest) == 0
    stays = after in (before, None) or standing.sways or on_home
    return (from_home and stays) or (_is_on(after, key, 5) and not standing.model.seventh)


def _rare_source(model: Chord, key: Key) -> str:
    """The mode that seldom lends: Lydian to major (II, ♯ivø7), Phrygian to minor (♭vii, v°)."""
    altered, name = ((5, 6), "Lydian") if key.mode == "major" else ((2, 1), "Phrygian")
    degrees = {(pc - key.tonic.pc) % 12 for pc in scale_pcs(key)} - {altered[0]} | {altered[1]}
    core = {(pc - key.tonic.pc) % 12 for pc in core_pcs(model)}
    neapolitan = name == "Phrygian" and key.above(model.root) == 1
    return f"{key.tonic} {name}" if core <= degrees and not neapolitan else ""


def _is_on(chord: Chord | None, key: Key, semitones: int) -> bool:
    return chord is not None and key.above(chord.root) == semitones


def _foreign(standing: Standing, key: Key) -> Candidate:
    """What is left: a third away from the tonic, a raised fifth, or nothing that has a name."""
    model, above = standing.model, key.above(standing.model.root)
    leading = model.triad == "major" and model.seventh == "♭7"
    if model.triad in ("major", "minor") and above in (3, 4, 8, 9) and not leading:
        return Candidate("chromatic mediant", _MEDIANT, "a third from the tonic")
    if model.triad == "augmented" and model.root.pc in scale_pcs(key):
        return Candidate("other", _RAISED_FIFTH, "raised fifth", name="raised fifth")
    return Candidate("other", _OTHER, "nothing explains it")

"""All readings that a chord admits in a key."""

from __future__ import annotations

from collections.abc import Iterator

from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony.belonging import belongs, borrowed_from, core_pcs, scale_pcs
from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.chromatic import chromatic
from studio.theory.harmony.functions import is_cadential, is_dominant
from studio.theory.harmony.pointing import pointing
from studio.theory.harmony.standing import Standing

_HARMONIC = 0.05
_BORROWED = 1.0
_HALF_AT_HOME = 0.4  # the Picardy third and the Dorian IV, in minor
_PRESSING = 0.6  # unless they press on: see Standing.leads_on
_RARE_LOAN, _LYDIAN_TWO = 1.3, 2.2
_MEDIANT, _RAISED_FIFTH, _OTHER = 1.6, 1.4, 2.5


def candidates(standing: Standing, key: Key) -> tuple[Candidate, ...]:
    """The readings of a chord in a key, at least one; the plain ones first."""
    how = belongs(standing.model, key)
    found: list[Candidate] = []
    if how:
        found.append(_diatonic(standing, key, how))
    else:
        found += [*_borrowed(standing, key), *chromatic(standing, key)]
    found += pointing(standing, key, how)
    if not how and not any(candidate.kind == "borrowed" for candidate in found):
        found.append(_foreign(standing, key))
    return tuple(found)


def _diatonic(standing: Standing, key: Key, how: str) -> Candidate:
    cost = 0.0 if how == "natural" else _HARMONIC
    return Candidate("diatonic", cost, f"belongs to {key}", name=_six_four(standing, key), how=how)


def _six_four(standing: Standing, key: Key) -> str:
    """What a triad over its fifth does, where handbooks have a name for it; "" for other chords."""
    chord, before, after = standing.chord, standing.before, standing.after
    if chord.bass is None or (chord.bass.pc - chord.root.pc) % 12 != 7 or chord.seventh:
        return ""
    if is_cadential(chord, key, after):
        return "cadential six-four"
    if before is None or after is None:
        return ""
    came, goes = ((other.bass or other.root).pc for other in (before, after))
    moves = (chord.bass.pc - came) % 12, (goes - chord.bass.pc) % 12
    if moves == (0, 0):
        return "pedal six-four"
    return "passing six-four" if set(moves) <= {1, 2} or set(moves) <= {10, 11} else ""


def _borrowed(standing: Standing, key: Key) -> Iterator[Candidate]:
    model = standing.model
    if source := borrowed_from(model, key):
        cost = _loan_cost(standing, key)
        yield Candidate("borrowed", cost, f"from {source}", name=_loan_name(standing, key), source=source)
    elif source := _rare_source(model, key):
        two = _above(model, key) == 2 and model.triad == "major"
        cost = _RARE_LOAN if not two else _BORROWED if _is_lydian_two(standing, key) else _LYDIAN_TWO
        yield Candidate("borrowed", cost, f"from {source}", source=source)


def _loan_cost(standing: Standing, key: Key) -> float:
    model, above = standing.model, _above(standing.model, key)
    if key.mode == "minor" and model.triad == "major" and (above == 0 or (above == 5 and not model.seventh)):
        return _PRESSING if standing.leads_on else _HALF_AT_HOME
    return _BORROWED


def _loan_name(standing: Standing, key: Key) -> str:
    """The trade's name of a borrowed chord, "" if it has none."""
    model, above = standing.model, _above(standing.model, key)
    if is_cadential(standing.chord, key, standing.after):
        return "cadential six-four"
    if model.triad != "major":
        return ""
    if key.mode == "minor" and above == 0 and is_dominant(standing.before, key) and not model.seventh:
        return "Picardy third"
    if above == 10 and model.seventh == "♭7" and _is_on(standing.after, key, 0):
        return "backdoor dominant"
    return ""


def _is_lydian_two(standing: Standing, key: Key) -> bool:
    """Whether a major II is colour and no dominant: it moves to IV, or sways to and fro with I."""
    before, after = standing.before, standing.after
    from_home = before is not None and before.bass is None and _is_on(before, key, 0)
    return (from_home and after in (before, None)) or _is_on(after, key, 5)


def _rare_source(model: Chord, key: Key) -> str:
    """The mode that seldom lends: Lydian to major (II, ♯ivø7), Phrygian to minor (♭vii, v°)."""
    altered, name = ((5, 6), "Lydian") if key.mode == "major" else ((2, 1), "Phrygian")
    degrees = {(pc - key.tonic.pc) % 12 for pc in scale_pcs(key)} - {altered[0]} | {altered[1]}
    core = {(pc - key.tonic.pc) % 12 for pc in core_pcs(model)}
    neapolitan = name == "Phrygian" and _above(model, key) == 1
    return f"{key.tonic} {name}" if core <= degrees and not neapolitan else ""


def _above(chord: Chord, key: Key) -> int:
    return (chord.root.pc - key.tonic.pc) % 12


def _is_on(chord: Chord | None, key: Key, semitones: int) -> bool:
    return chord is not None and _above(chord, key) == semitones


def _foreign(standing: Standing, key: Key) -> Candidate:
    """What is left: a third away from the tonic, a raised fifth, or nothing that has a name."""
    model, above = standing.model, _above(standing.model, key)
    leading = model.triad == "major" and model.seventh == "♭7"
    if model.triad in ("major", "minor") and above in (3, 4, 8, 9) and not leading:
        return Candidate("chromatic mediant", _MEDIANT, "a third from the tonic")
    if model.triad == "augmented" and model.root.pc in scale_pcs(key):
        return Candidate("other", _RAISED_FIFTH, "raised fifth", name="raised fifth")
    return Candidate("other", _OTHER, "nothing explains it")

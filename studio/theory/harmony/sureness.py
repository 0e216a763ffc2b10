"""How sure a reading is, and whether the next best is worth telling.

A judgement of ours, from 0 to 1, not a probability. Each kind of reading has a ceiling, which is how often a
musician would let it stand who hears nothing but the chart. It is lowered by how near the next best reading
comes: with a lead of ``margin`` points it is ceiling · (1 − ½·e^(−3·margin)), so that a tie leaves half of it,
half a point (applied against borrowed) takes a tenth off and a whole point hardly anything.
"""

from __future__ import annotations

from math import exp

from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.path import Step
from studio.theory.harmony.reading import Kind

_CEILINGS: dict[Kind, float] = {
    "diatonic": 0.98,
    "applied": 0.95,
    "borrowed": 0.92,
    "substitute dominant": 0.9,
    "Neapolitan": 0.85,
    "augmented sixth": 0.85,
    "blues": 0.85,
    "common-tone diminished": 0.75,
    "passing": 0.75,
    "chromatic mediant": 0.6,
    "other": 0.4,
}
_NAMED = {"related ii": 0.8, "raised fifth": 0.6, "neighbour chord": 0.6}
_UNRESOLVED = 0.7
_RESPELLED = 0.8
_MISSING_THIRD = 0.9
_STEEPNESS = 3.0
_DEFENSIBLE = 1.3  # points behind the best that a reading may be and still be told


def sureness_of(step: Step, resolved: bool) -> float:
    """How sure the reading of a step is, rounded to hundredths."""
    candidate = step.candidate
    ceiling = _NAMED.get(candidate.name, _CEILINGS[candidate.kind])
    if candidate.kind == "applied" and not resolved:
        ceiling = _UNRESOLVED
    if candidate.meant is not None and candidate.meant.triad == "diminished":
        ceiling *= _RESPELLED
    if step.standing.chord.triad in ("suspended", "power", "other"):
        ceiling *= _MISSING_THIRD
    return round(ceiling * (1 - exp(-_STEEPNESS * max(step.margin, 0.0)) / 2), 2)


def second_reading(step: Step) -> Candidate | None:
    """The runner-up, if a musician could defend it."""
    second = step.runner_up
    if (
        second is None
        or step.margin > _DEFENSIBLE
        or (second.kind == "other" and step.candidate.kind != "applied")
    ):
        return None
    return second

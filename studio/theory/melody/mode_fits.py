"""How well each scale holds the notes of a span, as a cost: 0 for a usual scale that holds them all.

The rules are in ``modes``; the weights are ours, from common practice.
"""

from __future__ import annotations

from dataclasses import dataclass

from studio.theory.melody.mode_evidence import Evidence
from studio.theory.melody.scales import BLUE_NOTES, COMPOSITE_BLUES, SCALES, Scale

MARGIN = 0.04
"""Scales whose costs differ by no more are not told apart."""
OUTSIDE = 0.5
"""What it costs at least if some of the notes lie outside the scale."""
FEWEST_OF_THE_NEAREST = 5
"""Notes of a scale that must sound for it to be called the nearest where none holds every note."""

_RARITY = (0.0, 0.1, 0.3)  # what it costs a scale to be met seldom,
_RARITY_COMPLETE = (0.0, 0.05, 0.1)  # and if all of its notes sound
_PENTATONIC = -0.05  # a pentatonic scale of which all notes sound is the better answer
_COMPOSITE = 0.2  # what nine notes hold says less than what seven do
_BOTH_THIRDS = 0.03  # the share of the time that the shorter third must take
_FOREIGN, _FOREIGN_TIME = 0.1, 1.2  # each note passed over, and its share of the time
_OUTSIDE_TIME = 2.0
_MINOR = {"1", "2", "♭3", "4", "5"}  # degrees
_MOST_FOREIGN, _MOST_RAISED_SEVENTH = 1 / 6, 1 / 3  # shares of the sounding time


@dataclass(frozen=True, slots=True)
class Fit:
    """A scale and the notes, in half steps above the tonic, that sound and are not its own; what both cost."""

    scale: Scale
    foreign: tuple[int, ...]
    rarity_cost: float
    foreign_cost: float

    @property
    def cost(self) -> float:
        """The lower, the better the scale explains the notes; see ``OUTSIDE``."""
        return self.rarity_cost + self.foreign_cost

    @property
    def holds(self) -> bool:
        """Whether every note belongs to the scale or only passes."""
        return self.foreign_cost < OUTSIDE


def fits(evidence: Evidence) -> list[Fit]:
    """Every scale that may be the answer, the best first; of equals the usual one first."""
    found = [_fit(scale, evidence) for scale in SCALES if _may_be_meant(scale, evidence)]
    return sorted(found, key=lambda fit: fit.cost)


def _may_be_meant(scale: Scale, evidence: Evidence) -> bool:
    """Pentatonics need all of their notes; blues scales their blue note and all others but one, the composite one
    both thirds, neither of them in passing unless the third is blue again and again, the lowered seventh, and the
    lowered fifth or another blue note."""
    missing = [place for place in scale.semitones if place not in evidence.sounding]
    if scale == COMPOSITE_BLUES:
        blue = evidence.blue or 6 in evidence.sounding
        shorter = min(evidence.lengths[3], evidence.lengths[4])
        both = shorter > 0 if evidence.blue_thirds else shorter >= _BOTH_THIRDS
        return both and blue and 10 in evidence.sounding
    if scale.family == "pentatonic":
        return not missing
    if scale.family == "blues":
        return len(missing) <= 1 and BLUE_NOTES[scale.name] not in missing
    return True


def _fit(scale: Scale, evidence: Evidence) -> Fit:
    foreign = tuple(place for place in sorted(evidence.sounding) if not scale.holds(place))
    complete = evidence.sounding.issuperset(scale.semitones)
    rarity_cost = (_RARITY_COMPLETE if complete else _RARITY)[scale.rarity]
    rarity_cost += _PENTATONIC if scale.family == "pentatonic" else 0
    rarity_cost += _COMPOSITE if scale == COMPOSITE_BLUES and not complete else 0
    share = evidence.share(foreign)
    if _passed_over(scale, foreign, evidence):
        return Fit(scale, foreign, rarity_cost, _FOREIGN * len(foreign) + _FOREIGN_TIME * share)
    return Fit(scale, foreign, rarity_cost, OUTSIDE + _OUTSIDE_TIME * share)


def too_few_for_one(evidence: Evidence, fit: Fit) -> bool:
    """Whether too little of a scale sounds to call it the nearest one where none holds every note."""
    heard = sum(place in evidence.sounding for place in fit.scale.semitones)
    return not fit.holds and heard < FEWEST_OF_THE_NEAREST


def foreign_to(fit: Fit, evidence: Evidence) -> tuple[int, ...]:
    """All notes that are not the scale's own, those among them that only embellish."""
    ornaments = {place for place in evidence.ornaments if not fit.scale.holds(place)}
    return tuple(sorted(ornaments.union(fit.foreign)))


def _passed_over(scale: Scale, foreign: tuple[int, ...], evidence: Evidence) -> bool:
    passing = [place for place in foreign if not is_raised_seventh(scale, place)]
    if evidence.share(passing) > _MOST_FOREIGN or evidence.share(foreign) > _MOST_RAISED_SEVENTH:
        return False
    return all(evidence.passes(place, scale.semitones) for place in passing)


def is_raised_seventh(scale: Scale, place: int) -> bool:
    """Whether this is the leading note of a minor key, foreign to a mode whose own seventh is lowered."""
    return place == 11 and _MINOR | {"♭7"} <= set(scale.degrees)


def is_natural_seventh(scale: Scale, place: int) -> bool:
    """Whether this is the lowered seventh of a minor key, foreign to a scale whose own is raised."""
    return place == 10 and _MINOR | {"7"} <= set(scale.degrees)


def other_seventh(scale: Scale) -> int | None:
    """The seventh that a minor key has beside this scale's own, in half steps; None for what is no minor scale."""
    return next((p for p in (10, 11) if is_natural_seventh(scale, p) or is_raised_seventh(scale, p)), None)


def may_take_turns(scale: Scale, evidence: Evidence) -> bool:
    """Whether both sevenths of a minor key sound, and the one that is not the scale's own not too long."""
    other = other_seventh(scale)
    return (
        other is not None
        and evidence.sounding >= {10, 11}
        and evidence.lengths[other] <= _MOST_RAISED_SEVENTH
    )

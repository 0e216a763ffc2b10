"""Closes on another chord than the tonic, by that chord's own V: E7–Am, or D7–G, where C is home."""

from __future__ import annotations

from collections.abc import Sequence

from studio.theory.progression.cadence_kinds import Formula
from studio.theory.progression.harmonies import Harmony, in_root_position


def on_other(last: Harmony, arrival: Harmony) -> Formula | None:
    """A close on another chord of the key by its own V: E7–Am at the end of a phrase in C major.

    A ii that goes to its V does not close, nor does a V that goes to the next V of a chain. I7–IV is the way on.
    """
    if not _leads_to(last, arrival) or arrival.key.above(last.last.root) == 0:
        return None
    if any(reading.kind == "applied" for reading in arrival.readings):
        return None
    return _close(last, arrival)


def on_five(last: Harmony, arrival: Harmony) -> Formula | None:
    """A close on V by V/V, both in root position, V a plain triad as it comes: D7–G in C, not D7–G7."""
    goal = arrival.first
    plain = goal.triad == "major" and not goal.seventh
    if not plain or not in_root_position(last.last) or not _leads_to(last, arrival):
        return None
    return _close(last, arrival)


def is_at_home_on_five(before: Sequence[Harmony]) -> bool:
    """Whether V/V comes after V's own six-four, as a close in the key of V has it: G/D–D7 in C."""
    if len(before) < 2:
        return False
    six_four, dominant = before[-2].last, before[-1].last
    return six_four.lowest.pc == dominant.root.pc and (six_four.root.pc - dominant.root.pc) % 12 == 5


def _leads_to(last: Harmony, arrival: Harmony) -> bool:
    """Whether a harmony is the applied V, with its leading note, of one in root position."""
    reading, goal = last.readings[-1], arrival.first
    if reading.kind != "applied" or not reading.resolved or reading.of == "":
        return False
    is_five = reading.numeral_display.base == "V" and last.fullest.triad in ("major", "augmented")
    return is_five and (goal.root.pc - last.last.root.pc) % 12 == 5 and in_root_position(goal)


def _close(last: Harmony, arrival: Harmony) -> Formula:
    reason = f"{last.last} is the dominant of {arrival.first} and closes on it."
    return Formula("authentic", reason, 0.65, of=last.readings[-1].of)

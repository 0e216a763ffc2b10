"""Dominants that lead from one to the next: what an applied dominant goes to, and what that is in its turn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from studio.music.chord import Chord
from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.joining import leads_on, resolves
from studio.theory.harmony.path import Step

Link = Literal["dominant", "ii", ""]
"""What stands on the target of an applied dominant instead of the target: D7 or Dm7♭5 (before G7) after A7."""

LINKED: dict[Link, str] = {"dominant": "extended dominant", "ii": "dominant of the next ii", "": ""}


@dataclass(frozen=True, slots=True)
class Goal:
    """The harmony that a chord leads to, whether that is the one it was waiting for, and where it goes on to."""

    chord: Chord | None
    met: bool = False
    onward: Chord | None = None


def goal_of(steps: Sequence[Step]) -> Goal:
    """What the first step leads to, through others that lead there too.

    Only applied dominants and leading-tone chords wait for something; every other chord just moves on.
    """
    here = steps[0]
    applied = here.candidate.applied
    if applied is None or applied.base == "ii":
        return Goal(here.standing.after, applied is not None)
    for one, two in pairwise(steps):
        if resolves(applied, two.standing.chord):
            return Goal(two.standing.chord, True, two.standing.after)
        same_key = one.key == two.key
        if not one.standing.repeats(two.standing) and not (
            same_key and leads_on(applied, two.candidate, here.key)
        ):
            return Goal(two.standing.chord, False, two.standing.after)
    return Goal(None)


def link_of(candidate: Candidate, goal: Goal) -> Link:
    """The place of an applied dominant in a chain, "" if it has none."""
    applied, chord = candidate.applied, goal.chord
    if applied is None or goal.met or chord is None or chord.root.pc != applied.target.root.pc:
        return ""
    if chord.triad == "major":
        return "dominant" if chord.seventh != "7" else ""
    return "ii" if _prepares(chord, goal.onward) else ""


def _prepares(chord: Chord, after: Chord | None) -> bool:
    """Whether a minor or half-diminished chord is the ii of the dominant that follows."""
    if after is None or chord.triad not in ("minor", "diminished") or chord.seventh not in ("", "♭7"):
        return False
    dominant = after.triad in ("major", "augmented", "suspended") and after.seventh != "7"
    return dominant and (after.root.pc - chord.root.pc) % 12 == 5

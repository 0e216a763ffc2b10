"""What a cadence is called, and what is known of it from its chords alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

CadenceKind = Literal[
    "perfect authentic", "imperfect authentic", "authentic", "half", "Phrygian half", "plagal", "minor plagal",
    "double plagal", "Lydian", "deceptive", "evaded", "backdoor", "Mixolydian", "subtonic", "Aeolian",
    "minor dominant", "Phrygian", "tritone-substitute",
]  # fmt: skip

OPEN: tuple[CadenceKind, ...] = ("half", "Phrygian half")
AMEN: tuple[CadenceKind, ...] = ("plagal", "minor plagal")
WITHOUT_DOMINANT: tuple[CadenceKind, ...] = (
    *AMEN, "Phrygian", "Mixolydian", "subtonic", "minor dominant",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Formula:
    """A cadence by its chords alone. ``length`` is how many harmonies make it, the arrival among them."""

    kind: CadenceKind
    reason: str
    sureness: float
    length: int = 2
    runner_up: str = ""
    of: str = ""
    picardy: bool = False

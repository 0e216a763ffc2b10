"""The stage: what a theme decides before anything is drawn."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from studio.timeline.slots import Slots


@dataclass(frozen=True)
class Fades:
    """Seconds in which a callout appears and leaves."""

    appear: Fraction
    leave: Fraction

    def frames(self, rate: Fraction) -> tuple[int, int]:
        return max(1, round(self.appear * rate)), max(1, round(self.leave * rate))


@dataclass(frozen=True)
class Stage:
    """How callouts come and go, where they may stand, and the theme by whose sizes a kind measures itself.

    `theme` means something to the drawing room alone.
    """

    fades: Fades
    slots: Slots
    theme: Any

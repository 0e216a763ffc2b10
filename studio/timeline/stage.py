"""The stage: what a theme decides before anything is drawn."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from studio.timeline.slots import Slots

CALM, QUICK = Fraction(12, 100), Fraction(20, 100)
"""Seconds in which things appear and leave: no sooner and no later."""


@dataclass(frozen=True)
class Fades:
    """Seconds in which a callout appears and leaves."""

    appear: Fraction
    leave: Fraction

    def frames(self, rate: Fraction) -> tuple[int, int]:
        """The same in whole frames, which stay within what is calm and quick enough at any rate."""
        least, most = math.ceil(CALM * rate), math.floor(QUICK * rate)
        appear, leave = (
            min(max(round(seconds * rate), least), most) for seconds in (self.appear, self.leave)
        )
        return appear, leave


def _has_all(text: str) -> str:
    return ""


@dataclass(frozen=True)
class Stage:
    """How callouts come and go, where they may stand, and the theme by whose sizes a kind measures itself.

    `theme` means something to the drawing room alone. `lacking` says what of a text its fonts do not have, in
    one sentence with its remedy, or "".
    """

    fades: Fades
    slots: Slots
    theme: Any
    lacking: Callable[[str], str] = _has_all

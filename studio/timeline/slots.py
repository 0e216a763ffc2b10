"""Slots: the parts of the picture in which callouts stand, on a grid of twelve columns inside title-safe."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from studio.project.episode_values import Canvas

COLUMNS = 12
SlotName = Literal["lower", "left", "right", "card", "top"]
SLOTS: tuple[SlotName, ...] = ("lower", "left", "right", "card", "top")
"""Lower third, the two columns, the full card, the strip along the top."""

SIDES: tuple[SlotName, ...] = ("left", "right")


@dataclass(frozen=True)
class Slot:
    """The columns that a slot spans, both included, and the most units that a callout in it may be tall."""

    first: int
    last: int
    tallest: int | None = None


@dataclass(frozen=True)
class Slots:
    """Where the slots are on a wide, a tall and a square canvas: three layouts, not one that is cropped."""

    wide: tuple[tuple[SlotName, Slot], ...]
    tall: tuple[tuple[SlotName, Slot], ...]
    square: tuple[tuple[SlotName, Slot], ...]

    def on(self, canvas: Canvas) -> Mapping[SlotName, Slot]:
        """The slots of a canvas by name."""
        return self._named[shape(canvas)]

    @cached_property
    def _named(self) -> Mapping[str, Mapping[SlotName, Slot]]:
        return {"wide": dict(self.wide), "tall": dict(self.tall), "square": dict(self.square)}


def shape(canvas: Canvas) -> Literal["wide", "tall", "square"]:
    """Which of the three layouts a canvas takes."""
    if canvas.width == canvas.height:
        return "square"
    return "wide" if canvas.width > canvas.height else "tall"

"""What is seen, as data: layers of still states. Nothing is drawn here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Box:
    """A rectangle of the canvas in pixels. All four numbers are even, so that chroma samples fit its edges."""

    x: int
    y: int
    width: int
    height: int

    def __post_init__(self) -> None:
        if self.x % 2 or self.y % 2 or self.width % 2 or self.height % 2:
            raise ValueError(f"box edges must be even, not {self}")

    @property
    def right(self) -> int:
        return self.x + self.width

    @property
    def bottom(self) -> int:
        return self.y + self.height

    def overlaps(self, other: Box) -> bool:
        across = self.x < other.right and other.x < self.right
        return across and self.y < other.bottom and other.y < self.bottom


@dataclass(frozen=True)
class State:
    """One still look from clip frame `start` up to `end`.

    `look` says which of the pictures that a content can make is shown; it is frozen and hashable, and
    means something only to the module that draws it. `opacity` from 0 to 1 is for appearing and leaving.
    """

    start: int
    end: int
    look: Any
    opacity: float = 1.0


@dataclass(frozen=True)
class Layer:
    """One thing on screen: what to draw (`kind`, `content`), where, and its states in ascending frames.

    Frames without a state show nothing of it.
    """

    kind: str
    content: Any
    box: Box
    states: tuple[State, ...]

    @property
    def start(self) -> int:
        return self.states[0].start if self.states else 0

    @property
    def end(self) -> int:
        return self.states[-1].end if self.states else 0

"""What is seen, as data: layers of still states. Nothing is drawn here."""

from __future__ import annotations

from dataclasses import dataclass, replace
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

    def shared(self, other: Box) -> Box | None:
        """The part that two boxes have in common."""
        if not self.overlaps(other):
            return None
        x, y = max(self.x, other.x), max(self.y, other.y)
        return Box(x, y, min(self.right, other.right) - x, min(self.bottom, other.bottom) - y)

    def moved(self, x: int, y: int) -> Box:
        return Box(self.x + x, self.y + y, self.width, self.height)


@dataclass(frozen=True)
class Glide:
    """How a mark moves: off its layer's box by `at` pixels (x, y) at frame `start`, by `to` at frame `end`.

    A glide has frames of its own, so that a state can be cut short and its mark still be in the same place.
    """

    start: int
    end: int
    at: tuple[float, float]
    to: tuple[float, float]

    def off(self, frame: int) -> tuple[int, int]:
        """The pixels at a frame, the nearest even ones."""
        share = (frame - self.start) / (self.end - self.start)
        x, y = (one + (two - one) * share for one, two in zip(self.at, self.to, strict=True))
        return round(x / 2) * 2, round(y / 2) * 2

    def later(self, frames: int) -> Glide:
        return replace(self, start=self.start + frames, end=self.end + frames)


@dataclass(frozen=True)
class State:
    """One still look from clip frame `start` up to `end`.

    `look` says which of the pictures that a content can make is shown; it is frozen and hashable, and
    means something only to the module that draws it. `opacity` from 0 to 1 is for appearing and leaving.
    `glide` is for marks, whose box moves.
    """

    start: int
    end: int
    look: Any
    opacity: float = 1.0
    glide: Glide | None = None

    def part(self, start: int, end: int) -> State:
        """The state from frame `start` up to `end`, as far as it lasts."""
        return replace(self, start=max(self.start, start), end=min(self.end, end))

    def later(self, frames: int) -> State:
        """The same state so many frames later; earlier where they are negative."""
        glide = self.glide.later(frames) if self.glide else None
        return replace(self, start=self.start + frames, end=self.end + frames, glide=glide)


@dataclass(frozen=True)
class Layer:
    """One thing on screen: what to draw (`kind`, `content`), where, and its states in ascending frames.

    Frames without a state show nothing of it.
    """

    kind: str
    content: Any
    box: Box
    states: tuple[State, ...]

    def box_at(self, state: State, frame: int) -> Box:
        """Where the layer stands at a frame of one of its states."""
        return self.box.moved(*state.glide.off(frame)) if state.glide else self.box

    @property
    def times(self) -> tuple[tuple[int, int], ...]:
        """The frames at which it is seen, each from and up to: it may come and go."""
        found: list[tuple[int, int]] = []
        for state in self.states:
            start = found.pop()[0] if found and found[-1][1] == state.start else state.start
            found.append((start, state.end))
        return tuple(found)

    @property
    def start(self) -> int:
        return self.states[0].start if self.states else 0

    @property
    def end(self) -> int:
        return self.states[-1].end if self.states else 0

"""A segment's pictures in pieces of at most four seconds, each named by all that it depends on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.project.episode_values import Canvas
from studio.render.encoder import SETTINGS
from studio.render.hashing import code_digest, content_digest, name_of
from studio.render.takes import Take
from studio.timeline.state import Layer, State

LONGEST_SECONDS = 4


@dataclass(frozen=True)
class Chunk:
    """Pictures to encode as one closed group. Frames count from the chunk's own start.

    `ground` is a layer of the whole canvas with a state at every frame; `take`, if any, is shown instead.
    """

    canvas: Canvas
    frames: int
    ground: Layer
    take: Take | None
    layers: tuple[Layer, ...]

    def name(self, theme_digest: str) -> str:
        """The chunk's name by content; a take counts by its digest, wherever its file lies."""
        take = replace(self.take, path="") if self.take else None
        code = code_digest("drawing", "render", "timeline")
        shown = [
            (layer.kind, content_digest(layer.content), layer.box, layer.states)
            for layer in (self.ground, *self.layers)
        ]
        return name_of("chunk", self.canvas, self.frames, take, shown, theme_digest, SETTINGS, code)


def chunks_of(
    canvas: Canvas, frames: int, ground: Layer, take: Take | None, layers: tuple[Layer, ...]
) -> tuple[Chunk, ...]:
    """Cut a clip of `frames` frames. Cuts are counted from the clip's start, so an edit moves none of them."""
    longest = int(LONGEST_SECONDS * canvas.rate)
    return tuple(
        Chunk(
            canvas,
            min(longest, frames - start),
            _part(ground, start, min(start + longest, frames)),
            _later(take, start / canvas.rate) if take else None,
            tuple(
                part for layer in layers if (part := _part(layer, start, min(start + longest, frames))).states
            ),
        )
        for start in range(0, frames, longest)
    )


def _part(layer: Layer, start: int, end: int) -> Layer:
    """What a layer shows from frame `start` up to `end`, counted from `start`."""
    return replace(layer, states=tuple(_states(layer.states, start, end)))


def _states(states: tuple[State, ...], start: int, end: int) -> Iterator[State]:
    for state in states:
        if state.start < end and state.end > start:
            yield state.part(start, end).later(-start)


def _later(take: Take, seconds: Fraction) -> Take:
    return replace(take, start=take.start + seconds)

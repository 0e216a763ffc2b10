"""Layers for tests, and a stand-in for drawing: pictures with soft edges, holes and colours, made by code."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import strategies as st
from PIL import Image

from studio.project.episode_values import Canvas
from studio.render import painter as painter_module
from studio.timeline.state import Box, Glide, Layer, State

SMALL = Canvas(320, 240, Fraction(30), "320x240 @ 30")


def toy(kind: str, content: Any, look: Any, size: tuple[int, int], theme: object) -> Image.Image:
    """A panel, half clear, with an opaque disc on it whose colour and place tell the look; its corners are empty."""
    width, height = size
    y, x = np.mgrid[0:height, 0:width]
    rgba = np.zeros((height, width, 4), np.uint8)
    rgba[...] = (40, 60 + 9 * int(content) % 90, 80, 180)
    middle = width * (0.3 + 0.1 * (look % 5)), height / 2
    away = np.hypot(x - middle[0], y - middle[1])
    ink = np.clip(height / 3 - away, 0, 1)[..., None]
    rgba = np.rint(rgba * (1 - ink) + ink * np.array([230, 225 - 30 * (look % 7), 200, 255])).astype(np.uint8)
    corner = np.minimum.reduce([x + y, width - 1 - x + y, x + height - 1 - y, width - 1 - x + height - 1 - y])
    rgba[..., 3] = np.rint(rgba[..., 3] * np.clip((corner - 4) / 3, 0, 1))
    rgba[rgba[..., 3] == 0] = 0
    return Image.fromarray(rgba)


@pytest.fixture
def toys(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Pictures come from `toy` while a test runs."""
    monkeypatch.setattr(painter_module, "draw", toy)
    yield


def lane(canvas: Canvas = SMALL, every: int = 7, frames: int = 60, fade: int = 3) -> tuple[Layer, ...]:
    """A callout that fades in, changes its look, and fades out; a mark that glides over it; and one beside it."""
    width, height = canvas.width // 2 // 2 * 2, canvas.height // 4 // 2 * 2
    box = Box(canvas.width // 8 // 2 * 2, canvas.height // 2 // 2 * 2, width, height)
    start, end = 4, frames - 6
    states = []
    for at in range(start, end):
        opacity = min(1.0, (at - start + 1) / (fade + 1), (end - at) / (fade + 1))
        states.append(State(at, at + 1, at // every, opacity))
    mark = Layer("toy", 3, Box(box.x, box.y, 12, 16), (_glide(18, 30, width), State(34, 40, 1)))
    beside = Layer("toy", 5, Box(0, 8, 96, 36), (State(0, frames // 2, 0), State(frames // 2, frames, 1)))
    return Layer("toy", 1, box, tuple(_joined(states))), mark, beside


def _glide(start: int, end: int, width: int) -> State:
    return State(start, end, 4, 1.0, Glide(start, end, (0.0, 8.0), (width - 14.0, 8.0)))


def _joined(states: list[State]) -> Iterator[State]:
    run: State | None = None
    for state in states:
        if run and (run.look, run.opacity) == (state.look, state.opacity):
            run = State(run.start, state.end, run.look, run.opacity)
        else:
            if run:
                yield run
            run = state
    if run:
        yield run


def composed(canvas: Canvas, layers: tuple[Layer, ...], frame: int) -> np.ndarray:
    """A frame of layers over nothing by Pillow's `alpha_composite`: an implementation that is not ours."""
    whole = Image.new("RGBA", (canvas.width, canvas.height), (0, 0, 0, 0))
    for layer in layers:
        for state in layer.states:
            if state.start <= frame < state.end:
                box = layer.box_at(state, frame)
                picture = np.array(toy(layer.kind, layer.content, state.look, (box.width, box.height), None))
                picture[..., 3] = np.rint(picture[..., 3] * np.float32(state.opacity))
                sheet = Image.new("RGBA", whole.size, (0, 0, 0, 0))
                sheet.paste(Image.fromarray(picture), (box.x, box.y))
                whole = Image.alpha_composite(whole, sheet)
    return np.asarray(whole)


_boxes = st.tuples(st.integers(0, 60), st.integers(0, 60), st.integers(6, 40), st.integers(6, 40)).map(
    lambda sides: Box(*(2 * side for side in sides))
)
_pieces = st.lists(st.tuples(st.integers(0, 12), st.integers(1, 6), st.integers(0, 5)), max_size=4)


def _in_order(pieces: list[tuple[int, int, int]]) -> tuple[State, ...]:
    """States one after the other; some of them move, and may move off the canvas."""
    found, at = [], 0
    for gap, length, look in pieces:
        start, end = at + gap, at + gap + length
        glide = Glide(start, end, (-3.0 * look, 7.0), (40.0 * gap, -9.0 * look)) if look > 3 else None
        found.append(State(start, end, look, 1.0 if look % 2 else 0.5, glide))
        at = end
    return tuple(found)


some_layers = st.lists(st.tuples(_boxes, _pieces.map(_in_order)), max_size=3).map(
    lambda found: tuple(Layer("toy", n, box, states) for n, (box, states) in enumerate(found))
)

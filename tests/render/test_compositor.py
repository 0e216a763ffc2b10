"""Drawing only what changed gives the same frames as drawing everything."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.themes.theme import default_theme
from studio.project.episode_values import read_canvas
from studio.render import painter as painter_module
from studio.render.chunks import Chunk, chunks_of
from studio.render.colour import Patch, Planes, blend
from studio.render.compositor import frames, new_frame
from studio.render.painter import Painter
from studio.timeline.state import Box, Glide, Layer, State

CANVAS = read_canvas("320x240 @ 30")
WHOLE = Box(0, 0, 320, 240)


@pytest.fixture(scope="module")
def painter() -> Painter:
    return Painter(default_theme())


def flat(kind: str, content: Any, look: Any, size: tuple[int, int], theme: object) -> np.ndarray:
    """Stands in for drawing: each look is a flat colour, grounds opaque and the rest half clear."""
    width, height = size
    shade = (37 * look + 11 * len(kind)) % 256
    return np.full(
        (height, width, 4), (shade, 255 - shade, shade // 2, 255 if kind == "ground" else 150), np.uint8
    )


states = st.lists(st.tuples(st.integers(0, 12), st.integers(1, 6), st.integers(0, 5)), max_size=4).map(
    lambda pieces: tuple(_in_order(pieces))
)
boxes = st.tuples(st.integers(0, 60), st.integers(0, 60), st.integers(1, 40), st.integers(1, 40)).map(
    lambda sides: Box(*(2 * side for side in sides))
)


def _in_order(pieces: list[tuple[int, int, int]]) -> list[State]:
    """States one after the other; some of them move, and may move off the canvas."""
    found, at = [], 0
    for gap, length, look in pieces:
        start, end = at + gap, at + gap + length
        glide = Glide(start, end, (-3.0 * look, 7.0), (40.0 * gap, -9.0 * look)) if look > 3 else None
        found.append(State(start, end, look, 1.0 if look % 2 else 0.5, glide))
        at = end
    return found


layers = st.lists(st.tuples(boxes, states), max_size=3).map(
    lambda all_: tuple(Layer(f"layer{n}", n, box, shown) for n, (box, shown) in enumerate(all_))
)


@given(layers)
@settings(max_examples=40, deadline=None)
def test_partial_drawing_equals_full_drawing(shown: tuple[Layer, ...]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(painter_module, "draw", flat)
        painter = Painter(default_theme())
        ground = Layer("ground", 0, WHOLE, (State(0, 9, 1), State(9, 30, 2)))
        chunk = Chunk(CANVAS, 30, ground, None, shown)
        for number, frame in enumerate(frames(chunk, painter)):
            _, planes = new_frame(320, 240)
            for layer in (ground, *shown):
                for state in layer.states:
                    if state.start <= number < state.end:
                        _onto(planes, painter.patch(layer, state), layer.box_at(state, number))
            ours = frame.to_ndarray()
            assert (ours[:240] == planes[0]).all()
            assert (ours[240:].reshape(2, 120, 160) == np.stack(planes[1:])).all()


def _onto(planes: Planes, patch: Patch, box: Box) -> None:
    """Blend by pixels into larger planes, of which the canvas is the middle."""
    wide, margin = new_frame(960, 720)[1], (320, 240)
    for n, (plane, large) in enumerate(zip(planes, wide, strict=True)):
        part = 1 if n == 0 else 2
        rows = slice(margin[1] // part, margin[1] // part + plane.shape[0])
        columns = slice(margin[0] // part, margin[0] // part + plane.shape[1])
        large[rows, columns] = plane
    blend(wide, patch, box.x + margin[0], box.y + margin[1])
    for n, (plane, large) in enumerate(zip(planes, wide, strict=True)):
        part = 1 if n == 0 else 2
        rows = slice(margin[1] // part, margin[1] // part + plane.shape[0])
        columns = slice(margin[0] // part, margin[0] // part + plane.shape[1])
        plane[...] = large[rows, columns]


@given(st.integers(1, 2000), st.sampled_from(["30", "29.97", "23.976", "25", "60"]))
@settings(deadline=None)
def test_chunks_cover_a_clip_and_last_four_seconds_at_most(count: int, rate: str) -> None:
    canvas = read_canvas(f"320x240 @ {rate}")
    ground = Layer("ground", 0, WHOLE, (State(0, count, 1),))
    moving = Layer("layer", 0, WHOLE, tuple(State(n, n + 1, n % 7) for n in range(count)))
    chunks = chunks_of(canvas, count, ground, None, (moving,))
    assert sum(chunk.frames for chunk in chunks) == count
    assert all(0 < chunk.frames <= 4 * canvas.rate for chunk in chunks)
    looks = [state.look for chunk in chunks for layer in chunk.layers for state in layer.states]
    assert looks == [n % 7 for n in range(count)]
    assert all(chunk.ground.states[-1].end == chunk.frames for chunk in chunks)


@given(st.integers(0, 299), st.sampled_from(["30", "23.976"]))
@settings(deadline=None)
def test_a_mark_is_in_the_same_place_whatever_chunk_a_frame_falls_in(frame: int, rate: str) -> None:
    canvas = read_canvas(f"320x240 @ {rate}")
    ground = Layer("ground", 0, WHOLE, (State(0, 300, 1),))
    gliding = State(0, 300, None, glide=Glide(0, 300, (0.0, 0.0), (290.0, 31.0)))
    mark = Layer("mark", 0, Box(0, 0, 10, 10), (gliding,))
    at = 0
    for chunk in chunks_of(canvas, 300, ground, None, (mark,)):
        if at <= frame < at + chunk.frames:
            (state,) = chunk.layers[0].states
            assert mark.box_at(state, frame - at) == mark.box_at(gliding, frame)
        at += chunk.frames


def test_a_chunk_s_name_depends_on_what_it_shows_and_not_on_where_files_lie() -> None:
    from studio.render.takes import Take

    def chunk(look: int = 1, path: str = "a.mp4", digest: str = "d") -> str:
        ground = Layer("ground", 0, WHOLE, (State(0, 30, look),))
        take = Take(path, digest, CANVAS.rate, CANVAS.rate + 1)
        return Chunk(CANVAS, 30, ground, take, ()).name("theme")

    assert chunk() == chunk(path="elsewhere/a.mp4")
    assert len({chunk(), chunk(look=2), chunk(digest="e")}) == 3

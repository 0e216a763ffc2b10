"""Frames of a chunk: what changed since the frame before is restored and blended, nothing else is touched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import av
import numpy as np

from studio.render.chunks import Chunk
from studio.render.colour import Patch, Planes, blend
from studio.render.painter import Painter
from studio.render.takes import take_frames
from studio.timeline.state import Box, Layer, State


@dataclass(frozen=True)
class _Seen:
    """A layer as it is seen in one frame: one of its states, ready to blend, at its place."""

    state: State
    patch: Patch
    box: Box

    def same(self, other: _Seen | None) -> bool:
        """Whether it looks the same in another frame. Neighbouring states of one look share their patch."""
        return other is not None and self.patch is other.patch and self.box == other.box


@dataclass
class _Cursor:
    """Where a layer is in its states as frames go by."""

    layer: Layer
    painter: Painter
    index: int = 0
    ready: tuple[State, Patch] | None = None

    def at(self, frame: int) -> _Seen | None:
        states = self.layer.states
        while self.index < len(states) and states[self.index].end <= frame:
            self.index += 1
        if self.index >= len(states) or states[self.index].start > frame:
            return None
        state = states[self.index]
        if self.ready is None or self.ready[0] is not state:
            self.ready = state, self.painter.patch(self.layer, state)
        return _Seen(state, self.ready[1], self.layer.box_at(state, frame))


def new_frame(width: int, height: int) -> tuple[av.VideoFrame, Planes]:
    """A YUV 4:2:0 video frame, and its planes as arrays that write through to it."""
    frame = av.VideoFrame(width, height, "yuv420p")
    planes = []
    for plane in frame.planes:
        whole = np.frombuffer(plane, np.uint8).reshape(plane.height, plane.line_size)  # type: ignore[call-overload]
        planes.append(whole[:, : plane.width])
    return frame, (planes[0], planes[1], planes[2])


def frames(chunk: Chunk, painter: Painter) -> Iterator[av.VideoFrame]:
    """Each frame of the chunk in order. It is one frame, drawn over: encode it before asking for the next."""
    frame, planes = new_frame(chunk.canvas.width, chunk.canvas.height)
    drawn = _over_take(chunk, painter, planes) if chunk.take else _over_ground(chunk, painter, planes)
    for number, _ in enumerate(drawn):
        frame.pts = number
        frame.time_base = 1 / chunk.canvas.rate
        yield frame


def _over_take(chunk: Chunk, painter: Painter, planes: Planes) -> Iterator[None]:
    assert chunk.take
    whole = Box(0, 0, chunk.canvas.width, chunk.canvas.height)
    cursors = [_Cursor(layer, painter) for layer in chunk.layers]
    for number, taken in enumerate(take_frames(chunk.take, chunk.canvas, chunk.frames)):
        for plane, source in zip(planes, taken, strict=True):
            plane[...] = source
        for cursor in cursors:
            _blend(planes, cursor.at(number), whole)
        yield


def _over_ground(chunk: Chunk, painter: Painter, planes: Planes) -> Iterator[None]:
    whole = Box(0, 0, chunk.canvas.width, chunk.canvas.height)
    ground, cursors = _Cursor(chunk.ground, painter), [_Cursor(layer, painter) for layer in chunk.layers]
    under: _Seen | None = None
    shown: list[_Seen | None] = [None] * len(cursors)
    for number in range(chunk.frames):
        now, below = [cursor.at(number) for cursor in cursors], ground.at(number)
        assert below, "the ground has a state at every frame"
        for box in _changed(shown, now) if below.same(under) else [whole]:
            if seen := box.shared(whole):
                _restore(planes, below.patch.adds, seen)
                for layer in now:
                    _blend(planes, layer, seen)
        shown, under = now, below
        yield


def _changed(shown: list[_Seen | None], now: list[_Seen | None]) -> list[Box]:
    """The rectangles of a frame that are not what they were: each place that a changed layer leaves or takes."""
    boxes: list[Box] = []
    for before, after in zip(shown, now, strict=True):
        if after.same(before) if after else before is None:
            continue
        boxes += [seen.box for seen in (before, after) if seen and seen.box not in boxes]
    return boxes


def _blend(planes: Planes, seen: _Seen | None, within: Box) -> None:
    """Blend what of a layer lies within a rectangle."""
    if seen and (part := seen.box.shared(within)):
        cut = seen.patch.part(part.x - seen.box.x, part.y - seen.box.y, part.width, part.height)
        blend(planes, cut, part.x, part.y)


def _restore(planes: Planes, under: tuple[np.ndarray, ...], box: Box) -> None:
    for n, (plane, ground) in enumerate(zip(planes, under, strict=True)):
        part = 1 if n == 0 else 2
        rows = slice(box.y // part, box.bottom // part)
        columns = slice(box.x // part, box.right // part)
        plane[rows, columns] = ground[rows, columns]

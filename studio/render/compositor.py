"""Frames of a chunk: what changed since the frame before is restored and blended, nothing else is touched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import av
import numpy as np

from studio.render.chunks import Chunk
from studio.render.colour import Planes, blend
from studio.render.painter import Painter
from studio.render.takes import take_frames
from studio.timeline.state import Layer, State


@dataclass
class _Cursor:
    """Where a layer is in its states as frames go by."""

    layer: Layer
    index: int = 0

    def at(self, frame: int) -> State | None:
        states = self.layer.states
        while self.index < len(states) and states[self.index].end <= frame:
            self.index += 1
        if self.index < len(states) and states[self.index].start <= frame:
            return states[self.index]
        return None


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
    cursors = [_Cursor(layer) for layer in chunk.layers]
    assert chunk.take
    for number, taken in enumerate(take_frames(chunk.take, chunk.canvas, chunk.frames)):
        for plane, source in zip(planes, taken, strict=True):
            plane[...] = source
        for cursor in cursors:
            if state := cursor.at(number):
                blend(planes, painter.patch(cursor.layer, state), cursor.layer.box.x, cursor.layer.box.y)
        yield


def _over_ground(chunk: Chunk, painter: Painter, planes: Planes) -> Iterator[None]:
    cursors = [_Cursor(layer) for layer in (chunk.ground, *chunk.layers)]
    shown: list[State | None] = [None] * len(cursors)
    for number in range(chunk.frames):
        now = [cursor.at(number) for cursor in cursors]
        dirty = _dirty(chunk, shown, now) if number else set(range(len(cursors)))
        ground = now[0]
        assert ground, "the ground has a state at every frame"
        under = painter.patch(chunk.ground, ground).adds
        for index in dirty:
            _restore(planes, under, cursors[index].layer)
        for index in sorted(dirty - {0}):
            if state := now[index]:
                layer = cursors[index].layer
                blend(planes, painter.patch(layer, state), layer.box.x, layer.box.y)
        shown = now
        yield


def _same(a: State | None, b: State | None) -> bool:
    return a is b or (a is not None and b is not None and (a.look, a.opacity) == (b.look, b.opacity))


def _dirty(chunk: Chunk, shown: list[State | None], now: list[State | None]) -> set[int]:
    """Layers to draw again: those that changed, and those that lie over or under one of them."""
    if not _same(shown[0], now[0]):
        return set(range(len(now)))
    dirty = {n for n in range(1, len(now)) if not _same(shown[n], now[n])}
    waiting = list(dirty)
    while waiting:
        box = chunk.layers[waiting.pop() - 1].box
        touched = {n for n, layer in enumerate(chunk.layers, 1) if n not in dirty and layer.box.overlaps(box)}
        dirty |= touched
        waiting += touched
    return dirty


def _restore(planes: Planes, under: tuple[np.ndarray, ...], layer: Layer) -> None:
    box = layer.box
    for n, (plane, ground) in enumerate(zip(planes, under, strict=True)):
        part = 1 if n == 0 else 2
        rows = slice(box.y // part, box.bottom // part)
        columns = slice(box.x // part, box.right // part)
        plane[rows, columns] = ground[rows, columns]

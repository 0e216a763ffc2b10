"""What is burnt into the rough cut: each segment's name, and its timecode counted from its own start."""

from __future__ import annotations

from itertools import groupby

from studio.music.timecode import can_drop, timecode
from studio.project.episode_values import Canvas
from studio.timeline.furniture import Burnt
from studio.timeline.layout import burnt_boxes, unit
from studio.timeline.state import Box, Layer, State

_FRAMES_WIDTH = 6  # units: room for two digits


def burnt_layers(number: int, name: str, frames: int, canvas: Canvas) -> tuple[Layer, ...]:
    """Three layers: the name, the timecode down to seconds, and the frame count.

    The frame count changes with every picture, so it is a small box of its own: two digits are drawn and
    blended where a whole timecode would be.
    """
    left, right = burnt_boxes(canvas)
    edge = right.right - round(_FRAMES_WIDTH * unit(canvas) / 2) * 2
    words = f"{number:02} {name}"
    codes = [timecode(frame, canvas.rate, can_drop(canvas.rate)) for frame in range(frames)]
    seconds = Box(right.x, right.y, edge - right.x, right.height)
    counts = Box(edge, right.y, right.right - edge, right.height)
    return (
        Layer(Burnt.kind, Burnt(words), left, (State(0, frames, words),)),
        Layer(Burnt.kind, Burnt("00:00:00:", "right"), seconds, _runs([code[:9] for code in codes])),
        Layer(Burnt.kind, Burnt("00"), counts, _runs([code[9:] for code in codes])),
    )


def _runs(looks: list[str]) -> tuple[State, ...]:
    states, at = [], 0
    for look, run in groupby(looks):
        length = len(list(run))
        states.append(State(at, at + length, look))
        at += length
    return tuple(states)

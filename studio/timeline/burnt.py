"""What is burnt in along the top: a segment's name and timecode in the rough cut, and who speaks where it is nobody.

The row lies inside title-safe, and callouts keep out of it (see `studio.timeline.layout`).
"""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

from studio.music.timecode import can_drop, timecode
from studio.project.episode_values import Canvas
from studio.timeline.furniture import Burnt
from studio.timeline.layout import burnt_boxes, unit
from studio.timeline.motion import faded
from studio.timeline.stage import CALM
from studio.timeline.state import Box, Layer, State

SCRATCH = "scratch voice"
"""What the picture says while a scratch voice speaks."""

_FRAMES_WIDTH = 6  # units: room for two digits
_CODE_WIDTH = 23  # units at the right end of the row that a whole timecode fills, with a little before it
_SCRATCH_WIDTH = 25  # units: room for the words in the heaviest type of a theme
_APART = 2  # units between the name and what follows


def burnt_layers(number: int, name: str, frames: int, canvas: Canvas) -> tuple[Layer, ...]:
    """Three layers: the name, the timecode down to seconds, and the frame count.

    The frame count changes with every picture, so it is a small box of its own: two digits are drawn and
    blended where a whole timecode would be.
    """
    left, right = burnt_boxes(canvas)
    edge = right.right - _even(_FRAMES_WIDTH, canvas)
    words = f"{number:02} {name}"
    codes = [timecode(frame, canvas.rate, can_drop(canvas.rate)) for frame in range(frames)]
    seconds = Box(right.x, right.y, edge - right.x, right.height)
    counts = Box(edge, right.y, right.right - edge, right.height)
    return (
        Layer(Burnt.kind, Burnt(words), left, (State(0, frames, words),)),
        Layer(Burnt.kind, Burnt("00:00:00:", "right"), seconds, _runs([code[:9] for code in codes])),
        Layer(Burnt.kind, Burnt("00"), counts, _runs([code[9:] for code in codes])),
    )


def scratch_layer(frames: int, canvas: Canvas) -> Layer:
    """The words that say that a scratch voice speaks, in the first `frames` frames of a clip: at the right end of
    the row, where a clip of its own has nothing else."""
    _, right = burnt_boxes(canvas)
    width = _even(_SCRATCH_WIDTH, canvas)
    box = Box(right.right - width, right.y, width, right.height)
    states = faded((State(0, frames, SCRATCH),), 0, round(CALM * canvas.rate))
    return Layer(Burnt.kind, Burnt(SCRATCH), box, states)


def burnt_over(burnt: tuple[Layer, ...], scratch: Layer | None, canvas: Canvas) -> tuple[Layer, ...]:
    """The whole row: where a scratch voice speaks, its words go before the timecode and the name gives way to them.

    `burnt` is what `burnt_layers` made, or empty for a clip without it.
    """
    if scratch is None or not burnt:
        return burnt if scratch is None else (scratch,)
    name, *code = burnt
    beside = scratch.box.moved(-_even(_CODE_WIDTH, canvas), 0)
    room = Box(name.box.x, name.box.y, beside.x - _even(_APART, canvas) - name.box.x, name.box.height)
    return (replace(name, box=room), replace(scratch, box=beside), *code)


def _even(units: int, canvas: Canvas) -> int:
    """So many units in pixels, the nearest even number."""
    return round(units * unit(canvas) / 2) * 2


def _runs(looks: list[str]) -> tuple[State, ...]:
    states, at = [], 0
    for look, run in groupby(looks):
        length = len(list(run))
        states.append(State(at, at + length, look))
        at += length
    return tuple(states)

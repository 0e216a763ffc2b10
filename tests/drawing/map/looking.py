"""Where things are in a picture, and where a mark is at a frame of a clip."""

from __future__ import annotations

from fractions import Fraction as F

import numpy as np
from PIL import Image

from studio.music.songtime import SongTime
from studio.timeline.clock import ClipClock, Heard
from studio.timeline.kind import Mark
from studio.timeline.marks import mark_layer
from studio.timeline.state import Box


def near(picture: Image.Image, colour: tuple[int, int, int]) -> np.ndarray:
    """Which pixels, [row, column], have a colour at full strength."""
    pixels = np.asarray(picture).astype(int)
    return np.asarray((np.abs(pixels[..., :3] - colour).max(-1) < 10) & (pixels[..., 3] > 230))


def repeated(time: SongTime, start: F, end: F, rate: F = F(30)) -> ClipClock:
    """A stretch of seconds of the recording, heard from 2 s on, then again at four fifths of its speed."""
    first = Heard(F(2), start, end - start)
    return ClipClock(rate, time, (first, Heard(first.end + F(1, 2), start, end - start, F(4, 5))))


def middles(mark: Mark, size: tuple[int, int], clock: ClipClock) -> dict[int, tuple[float, float]]:
    """The middle of a mark at every frame at which it is seen, in pixels of its callout's picture."""
    last = clock.frame(clock.heard[-1].end)
    layer = mark_layer(mark, Box(0, 0, *size), 0, last + 30, clock)
    found = {}
    for state in layer.states:
        for frame in range(state.start, state.end):
            box = layer.box_at(state, frame)
            found[frame] = (box.x + box.width / 2, box.y + box.height / 2)
    return found


def heard_at(clock: ClipClock, frame: int) -> F | None:
    """The second of the recording that sounds at a frame."""
    seconds = frame / clock.rate
    piece = next((piece for piece in clock.heard if piece.clip <= seconds < piece.end), None)
    return piece.source_time(seconds) if piece else None

"""What lies under everything in a clip: a bare ground under a camera, else a slate with the script on it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from studio.project.episode_values import Canvas
from studio.project.lengths import reading_time
from studio.project.model import Segment, Song
from studio.timeline.furniture import Backdrop, Slate
from studio.timeline.plan import CalloutPlan
from studio.timeline.state import Box, Layer, State
from studio.timeline.talk import page_states, pages

_WORDS_END = Fraction(58, 100)  # of the height of a slate: where a full page of script ends


def ground_of(
    segment: Segment,
    song: Song,
    script: str,
    frames: int,
    playing: tuple[int, int] | None,
    callouts: Sequence[CalloutPlan],
    canvas: Canvas,
) -> Layer:
    """Under a camera a bare ground; else a slate, whose script shows while nothing stands or sounds over it."""
    whole = Box(0, 0, canvas.width, canvas.height)
    if segment.camera:
        return Layer(Backdrop.kind, Backdrop("", ""), whole, (State(0, frames, None),))
    turned = pages(script)
    line = " · ".join(text for text in (song.title, song.by) if text)
    if turned and not segment.excerpt and not segment.narration:
        line = f"{math.ceil(reading_time(script))} s to read aloud"
    states = page_states(turned, frames, _covered(playing, callouts, canvas))
    return Layer(Slate.kind, Slate(segment.title, turned, line), whole, states)


def _covered(
    playing: tuple[int, int] | None, callouts: Sequence[CalloutPlan], canvas: Canvas
) -> list[tuple[int, int]]:
    """The frames at which a slate's script would be in the way: of the excerpt, and of callouts that reach up
    to where the words of a full page stand."""
    words_end = canvas.height * _WORDS_END
    tall = [callout.layer for callout in callouts if callout.layer.box.y < words_end]
    return [*([playing] if playing else []), *((layer.start, layer.end) for layer in tall)]

"""A segment as moviepy clips, for a person's own script: to cut further, place, combine and write out.

moviepy is the clip algebra here and never does the blending of a build: its composite of full frames is many
times slower than blending what changed.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING, Any

import numpy as np

from studio.drawing.themes.theme import Theme
from studio.render.chunks import Chunk
from studio.render.clip_sound import clip_samples
from studio.render.compositor import frames
from studio.render.painter import Painter
from studio.render.takes import Take
from studio.timeline.heard import RATE
from studio.timeline.plan import Plan, SegmentPlan

if TYPE_CHECKING:
    from moviepy import ImageClip, VideoClip
else:
    ImageClip = VideoClip = Any


@dataclass(frozen=True)
class ReadySegment:
    """A planned segment with all that is needed to make its clip; `studio.build.Opened.segment` gives one."""

    plan: Plan
    segment: SegmentPlan
    theme: Theme


def as_moviepy(ready: ReadySegment) -> VideoClip:
    """A segment's clip, pictures and sound, as a moviepy VideoClip.

    >>> clip = as_moviepy(open_project(Path("my-episode")).segment("hook"))
    >>> clip.subclipped(0, 4).with_effects([vfx.FadeIn(0.5)]).write_videofile("opening.mp4", fps=clip.fps)

    Frames are made in order and kept one at a time: going on is fast, going back starts the clip again.
    """
    from moviepy import VideoClip as Clip
    from moviepy.audio.AudioClip import AudioArrayClip

    plan, segment = ready.plan, ready.segment
    shown = _Reel(ready)
    clip = Clip(shown.at, duration=float(segment.frames / plan.canvas.rate)).with_fps(float(plan.canvas.rate))
    return clip.with_audio(AudioArrayClip(clip_samples(plan, segment)[0].astype(np.float64), fps=RATE))


def overlays_as_moviepy(ready: ReadySegment) -> list[ImageClip]:
    """Each state of each callout as a moviepy ImageClip with its mask, start, length and position set, ready
    for a CompositeVideoClip of one's own."""
    from moviepy import ImageClip as Still

    painter, rate = Painter(ready.theme), float(ready.plan.canvas.rate)
    return [
        Still(painter.rgba(layer, state.look), transparent=True, duration=(state.end - state.start) / rate)
        .with_start(state.start / rate)
        .with_position((layer.box.x, layer.box.y))
        .with_opacity(state.opacity)
        for layer in ready.segment.layers
        for state in layer.states
    ]


class _Reel:
    """Frames of a segment by clip time, as RGB arrays of shape (height, width, 3)."""

    def __init__(self, ready: ReadySegment) -> None:
        self._rate, self._last = float(ready.plan.canvas.rate), ready.segment.frames - 1
        self._chunk, self._painter = _whole(ready.plan, ready.segment), Painter(ready.theme)
        self._begin()

    def _begin(self) -> None:
        self._frames = frames(self._chunk, self._painter)
        self._number = -1

    def at(self, seconds: float) -> np.ndarray:
        wanted = min(int(seconds * self._rate + 1e-6), self._last)
        if wanted < self._number:
            self._begin()
        if wanted > self._number:
            frame = next(islice(self._frames, wanted - self._number - 1, None))
            self._number = wanted
            self._shown = frame.reformat(format="rgb24", src_colorspace="itu709").to_ndarray()
        return self._shown


def _whole(plan: Plan, segment: SegmentPlan) -> Chunk:
    """The segment as a single chunk."""
    camera = segment.camera
    take = Take(camera.path, "", camera.start, camera.end) if camera else None
    return Chunk(plan.canvas, segment.frames, segment.ground, take, segment.layers)

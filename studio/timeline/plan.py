"""The plan: all that will be seen and heard, decided and not yet done.

Pictures count in frames, sound in samples at 48 kHz. A plan can be printed, compared, hashed and tested;
rendering is a function of it, the source files and the theme.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, Literal

from studio.music.key import Key
from studio.music.place import Span
from studio.project.episode_values import Canvas
from studio.timeline.answers.said import Answer
from studio.timeline.heard import Ducking, Laid
from studio.timeline.state import Box, Layer


@dataclass(frozen=True)
class CameraPlan:
    """A camera take shown from `start` to `end` seconds of its own time."""

    path: str
    start: Fraction
    end: Fraction


@dataclass(frozen=True)
class CalloutPlan:
    """One callout: its layer, the marks that move over it, the look of its still, and what it shows in words."""

    name: str  # "01-chords": number in the segment, kind
    layer: Layer
    marks: tuple[Layer, ...]
    still: Any
    still_marks: tuple[Box | None, ...]  # where each mark stands in the still
    alt: str
    span: Span | None  # what of the song it is about, in quarters


@dataclass(frozen=True)
class ExcerptPlan:
    """An excerpt, placed in its clip. `names`: the stems that sound, and what is played; none means the full
    recording. `bars`: (number of the bar, sample of the cut) of each bar line that is heard, in order."""

    laid: Laid
    names: tuple[str, ...]
    span: Span | None  # quarters; None for what stands in no place of the song
    bars: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True)
class Voice:
    """What is spoken in a clip: a recorded narration, the camera's own sound, or a scratch voice."""

    laid: Laid
    kind: Literal["narration", "camera", "scratch"]


@dataclass(frozen=True)
class SegmentPlan:
    """One segment's clip. `start` is its first frame in the episode; all else counts from the clip's start."""

    id: str
    number: int
    title: str
    start: int
    frames: int
    ground: Layer
    camera: CameraPlan | None
    voice: Voice | None
    camera_sound: Laid | None  # where it is not the voice, because somebody narrates over it
    ducking: Ducking | None  # how all else makes room for the voice
    excerpt: ExcerptPlan | None
    callouts: tuple[CalloutPlan, ...]
    strip: Layer | None
    burnt: tuple[Layer, ...]
    script: str  # with its facts filled in
    reading: Fraction  # seconds that the script takes to read aloud
    scratch: Layer | None = None  # says in the clip that the voice is a scratch voice, as long as it speaks

    @property
    def end(self) -> int:
        """The first frame of the episode after the clip."""
        return self.start + self.frames

    @property
    def layers(self) -> tuple[Layer, ...]:
        """What lies over the ground in the clip, lowest first."""
        shown = tuple(layer for callout in self.callouts for layer in (callout.layer, *callout.marks))
        return (*shown, self.strip) if self.strip else shown


@dataclass(frozen=True)
class Plan:
    """An episode."""

    title: str
    canvas: Canvas
    loudness: float  # LUFS
    ceiling: float  # dBTP
    segments: tuple[SegmentPlan, ...]
    answers: tuple[Answer, ...]
    keys: tuple[tuple[Fraction, Key], ...]  # written, or inferred where none is; (quarters, key)

    @property
    def frames(self) -> int:
        return max((segment.end for segment in self.segments), default=0)

    def only(self, ids: tuple[str, ...]) -> Plan:
        """The plan with just the named segments; all of them when none is named."""
        if not ids:
            return self
        return replace(self, segments=tuple(segment for segment in self.segments if segment.id in ids))

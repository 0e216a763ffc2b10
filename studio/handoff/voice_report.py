"""What the report says of who speaks in a clip, what stands beside the voice, and how that makes room for it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from studio.handoff.figures import relative, seconds
from studio.project.model import Project
from studio.timeline.heard import RATE, Source, Spoken
from studio.timeline.plan import SegmentPlan


def voice_about(project: Project, segment: SegmentPlan) -> dict[str, Any] | None:
    """The voice of a clip; None where nobody speaks. `file`, and `from_s` to `to_s` of its own time, are None for a
    scratch voice, which has a `language` instead."""
    if segment.voice is None:
        return None
    laid, kind = segment.voice.laid, segment.voice.kind
    (whole,) = laid.cut.passes
    (speaking,) = whole.sources
    recorded = isinstance(speaking, Source)
    return {
        "kind": kind,
        "scratch": kind == "scratch",
        "file": relative(project, speaking.path) if isinstance(speaking, Source) else None,
        "from_s": seconds(Fraction(whole.start, RATE)) if recorded else None,
        "to_s": seconds(Fraction(whole.end, RATE)) if recorded else None,
        "language": speaking.language if isinstance(speaking, Spoken) else None,
        "starts_in_clip_s": seconds(Fraction(laid.at, RATE)),
        "length_s": seconds(Fraction(laid.cut.length, RATE)),
    }


def camera_sound_about(segment: SegmentPlan) -> str | None:
    """What the camera's own sound is: the `voice`, `beside` a narration, or `off`; None without a camera."""
    if segment.camera is None:
        return None
    if segment.camera_sound is not None:
        return "beside"
    return "voice" if segment.voice and segment.voice.kind == "camera" else "off"


def ducking_about(segment: SegmentPlan) -> dict[str, float] | None:
    """How all else makes room for the voice; None where it does not, or there is nothing else or no voice."""
    ducking = segment.ducking
    if ducking is None or segment.voice is None or not (segment.camera_sound or segment.excerpt):
        return None
    return {
        "by_dB": ducking.by_db,
        "attack_s": seconds(Fraction(ducking.attack, RATE)),
        "release_s": seconds(Fraction(ducking.release, RATE)),
    }

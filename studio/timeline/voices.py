"""Who speaks in a clip, what of the camera is heard beside them, and how the music makes room."""

from __future__ import annotations

from fractions import Fraction

from studio.project.lengths import reading_time
from studio.project.model import Camera, DuckingAsked, Narration, Segment
from studio.timeline.heard import Cut, Ducking, Laid, Sounding, Source, Spoken, nearest_sample
from studio.timeline.plan import Voice

CLICK_FREE = Fraction(5, 1000)
"""Seconds of the least fade at any cut; common practice."""


def voice_of(segment: Segment, script: str, scratch: str) -> Voice | None:
    """The voice of a clip: its narration, else the camera's own sound, else a scratch voice that reads the script.

    `scratch` is the language of the scratch voice, "" where none is wanted.
    """
    if segment.narration is not None:
        return Voice(_narration(segment.narration), "narration")
    if (own := _sound_of(segment.camera)) is not None:
        return Voice(own, "camera")
    if scratch and script:
        length = nearest_sample(reading_time(script))
        return Voice(Laid(_whole(Spoken(script, length, scratch), 0, length), 0), "scratch")
    return None


def beside_of(segment: Segment) -> Laid | None:
    """The camera's own sound, where somebody narrates over it."""
    return _sound_of(segment.camera) if segment.narration is not None else None


def ducking_of(asked: DuckingAsked | None, voice: Voice | None) -> Ducking | None:
    """How all else makes room for the voice, in samples; None where there is no voice, or it need not."""
    if asked is None or voice is None:
        return None
    return Ducking(asked.by_db, nearest_sample(asked.attack), nearest_sample(asked.release))


def _narration(narration: Narration) -> Laid:
    start, end = (nearest_sample(seconds) for seconds in (narration.start, narration.end))
    source = Source(narration.media.path.as_posix())
    return Laid(_whole(source, start, end - start), nearest_sample(narration.at))


def _sound_of(camera: Camera | None) -> Laid | None:
    if camera is None or not camera.sound or not camera.media.has_sound:
        return None
    start, end = (nearest_sample(seconds) for seconds in (camera.start, camera.end))
    return Laid(_whole(Source(camera.media.path.as_posix()), start, end - start), 0)


def _whole(sounding: Sounding, start: int, length: int) -> Cut:
    """All of something, with fades that nobody hears as such."""
    fade = min(nearest_sample(CLICK_FREE), length // 2)
    return Cut.of((sounding,), start, length, fade, fade)

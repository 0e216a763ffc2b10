"""How long a clip lasts, as far as the project file decides it."""

from __future__ import annotations

import re
from fractions import Fraction

from studio.project.model import Camera, Excerpt, Segment

WORDS_A_MINUTE = 150
"""How fast a script is read aloud; common practice."""


def reading_time(script: str) -> Fraction:
    """Seconds that a script takes to read aloud.

    Each numeral of a chain, I–V–vi, is a word; a fact that is still in its braces counts as one.
    """
    return Fraction(60 * len(re.findall(r"[^\s–—]+", script)), WORDS_A_MINUTE)


def clip_length(segment: Segment) -> Fraction:
    """Seconds: the camera's stretch, or without a camera the longer of the reading and the excerpt."""
    return length_of(segment.script, segment.camera, segment.excerpt)


def length_of(script: str, camera: Camera | None, excerpt: Excerpt | None) -> Fraction:
    """`clip_length`, before there is a segment."""
    if camera is not None:
        return camera.end - camera.start
    heard = excerpt.at + excerpt.length if excerpt is not None else Fraction(0)
    return max(reading_time(script), heard)

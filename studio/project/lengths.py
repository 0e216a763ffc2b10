"""How long a clip lasts, as far as the project file decides it."""

from __future__ import annotations

import re
from fractions import Fraction

from studio.music.aloud import words_aloud
from studio.project.model import Camera, Excerpt, Narration, Segment

WORDS_A_MINUTE = 150
"""How fast a script is read aloud; common practice."""


_FACT = re.compile(r"\{\{|\{[^{}\n]*\}")


def reading_time(script: str) -> Fraction:
    """Seconds that a script takes to read aloud, by its words as they are said: I–V/vi is one, five of six.

    A fact that is still in its braces counts as one word, and so does a script that is nothing but a pause, as "…".
    """
    words = words_aloud(_FACT.sub(lambda brace: " " if brace[0] == "{{" else " fact ", script))
    return Fraction(60 * max(words, 1 if script.strip() else 0), WORDS_A_MINUTE)


def voice_end(script: str, narration: Narration | None) -> Fraction:
    """Seconds of the clip at which the voice is done: the narration's, or a reading of the script."""
    return narration.at + narration.length if narration is not None else reading_time(script)


def excerpt_start(script: str, narration: Narration | None, excerpt: Excerpt) -> Fraction:
    """Seconds of the clip at which an excerpt, or its count-in, starts."""
    return excerpt.at if excerpt.at is not None else voice_end(script, narration)


def clip_length(segment: Segment) -> Fraction:
    """Seconds: the camera's stretch, or without a camera the longer of the voice and the excerpt."""
    return length_of(segment.script, segment.camera, segment.excerpt, segment.narration)


def length_of(
    script: str, camera: Camera | None, excerpt: Excerpt | None, narration: Narration | None = None
) -> Fraction:
    """`clip_length`, before there is a segment."""
    if camera is not None:
        return camera.end - camera.start
    heard = excerpt_start(script, narration, excerpt) + excerpt.heard if excerpt is not None else Fraction(0)
    return max(voice_end(script, narration), heard)

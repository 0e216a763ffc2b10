"""How far a camera's own sound may be brought up: a gain lifts the hiss of a room as it lifts what sounds in it.

A take in which nobody talks is not silent: rooms and preamplifiers hiss at -70 to -50 LUFS, and brought to the level of
a programme that is a waterfall. A voice that was recorded too softly brings its room with it.
"""

from __future__ import annotations

from studio.sound.samples import Samples
from studio.sound.talking import talks

MOST_LIFT = 20.0
"""Decibels that a camera's sound is lifted at most: a room that is 40 dB under its voice, as in a usable recording, is
then still 40 dB under it, and one of -60 LUFS stays at -40 (common practice)."""
ROOM_TONE = -45.0
"""LUFS under which sound without talk is the tone of a room; music that is played for the camera is louder (common
practice)."""


def camera_lift(samples: Samples, integrated: float | None) -> float:
    """The decibels that a camera's sound may be lifted by: `MOST_LIFT`, or 0 where nothing in it stands out.

    `samples` have shape (length, 2), and `integrated` is their loudness in LUFS, None for silence.
    """
    quiet = integrated is None or integrated < ROOM_TONE
    return 0.0 if quiet and not talks(samples) else MOST_LIFT

"""Timecode after SMPTE ST 12-1: frame counts as hours, minutes, seconds and frames.

At 29.97 and 59.94 frames a second the numbers run slow against the clock; drop-frame counting skips frame
*numbers* (never frames) at the start of each minute but every tenth, and is written with a semicolon.
"""

from __future__ import annotations

import re
from fractions import Fraction

_WRITTEN = re.compile(r"(\d{1,2}):(\d{2}):(\d{2})([:;])(\d{2})")


def nominal(rate: Fraction) -> int:
    """Frames that timecode counts to a second: 30 for 29.97."""
    return round(rate)


def can_drop(rate: Fraction) -> bool:
    """Whether drop-frame counting exists at this rate (29.97 and 59.94)."""
    return rate.denominator == 1001 and nominal(rate) % 30 == 0


def _dropped(rate: Fraction) -> int:
    return nominal(rate) // 15


def timecode(frame: int, rate: Fraction, drop: bool = False) -> str:
    """`00:01:03:12` for a frame counted from 0; with `drop`, `00:01:03;12`.

    Raises ValueError for a negative frame, or for drop-frame at a rate that has none.
    """
    if frame < 0:
        raise ValueError("timecode counts from frame 0")
    count = nominal(rate)
    if drop:
        if not can_drop(rate):
            raise ValueError("drop-frame timecode exists at 29.97 and 59.94 frames a second only")
        skip = _dropped(rate)
        tens, rest = divmod(frame, count * 600 - 9 * skip)
        frame += 9 * skip * tens
        if rest >= count * 60:
            frame += skip * (1 + (rest - count * 60) // (count * 60 - skip))
    seconds, frames_left = divmod(frame, count)
    minutes, second = divmod(seconds, 60)
    hour, minute = divmod(minutes, 60)
    return f"{hour:02}:{minute:02}:{second:02}{';' if drop else ':'}{frames_left:02}"


def frames(text: str, rate: Fraction) -> int:
    """The frame that a timecode names; the inverse of `timecode`. Raises ValueError with a plain sentence."""
    found = _WRITTEN.fullmatch(text.strip())
    count = nominal(rate)
    if not found:
        raise ValueError(f"'{text}' is not a timecode; write it as 00:01:03:12")
    hour, minute, second, last = (int(found[n]) for n in (1, 2, 3, 5))
    if minute > 59 or second > 59 or last >= count:
        raise ValueError(
            f"'{text}' is not a timecode at {count} frames a second: "
            f"minutes and seconds go to 59, frames to {count - 1}"
        )
    minutes = hour * 60 + minute
    frame = (minutes * 60 + second) * count + last
    if found[4] == ":":
        return frame
    if not can_drop(rate):
        raise ValueError(
            f"'{text}' is drop-frame timecode, which exists at 29.97 and 59.94 frames a second only"
        )
    skip = _dropped(rate)
    if minute % 10 and not second and last < skip:
        raise ValueError(f"'{text}' does not exist: drop-frame timecode skips frames 0 to {skip - 1} there")
    return frame - skip * (minutes - minutes // 10)

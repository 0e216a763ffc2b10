"""The pointer: the triangle that moves over a picture and points down at what sounds, the same over every kind."""

from __future__ import annotations

from collections.abc import Iterable

from studio.timeline.kind import Leg, Mark

POINTER_WIDE, POINTER_TALL = 3.2, 2.4
"""Units of the pointer."""


def pointer(unit: float, path: Iterable[Leg]) -> Mark:
    """The pointer on its way; `unit` is the pixels of one unit of the canvas."""
    return Mark("pointer", (round(POINTER_WIDE * unit), round(POINTER_TALL * unit)), tuple(path))

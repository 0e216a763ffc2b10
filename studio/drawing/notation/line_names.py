"""Where the names of a staff's lines stand: beside their lines, moved apart where they would touch."""

from __future__ import annotations

from collections.abc import Sequence


def name_middles(wished: Sequence[float], pitch: float, limits: tuple[float, float]) -> list[float]:
    """Heights for the middles of names, from the top down: `pitch` apart at least and within the limits, if they
    all fit there, and as near to where they are wished as that allows.

    >>> name_middles([10, 12, 40], 8, (0, 100))
    [10, 18, 40]
    >>> name_middles([90, 92], 8, (0, 100))
    [88.0, 96.0]
    """
    found: list[float] = []
    for middle in wished:
        found.append(max(middle, found[-1] + pitch if found else limits[0] + pitch / 2))
    floor = limits[1] + pitch / 2
    for number in reversed(range(len(found))):
        found[number] = floor = min(found[number], floor - pitch)
    return found

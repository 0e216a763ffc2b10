"""Straight lines that slant: as bands of some thickness, and cut where something stands on them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot

from studio.drawing.paint import Point

Room = tuple[float, float, float, float]
"""A rectangle: left, top, right, bottom."""


def outside(one: Point, two: Point, rooms: Sequence[Room]) -> Iterator[tuple[Point, Point]]:
    """The stretches of a straight line that lie in none of some rectangles."""
    free = [(0.0, 1.0)]
    for room in rooms:
        inside = _inside(one, two, room)
        if inside is None:
            continue
        start, end = inside
        free = [
            part
            for first, last in free
            for part in ((first, min(last, start)), (max(first, end), last))
            if part[1] - part[0] > 1e-6
        ]
    dx, dy = two[0] - one[0], two[1] - one[1]
    for first, last in free:
        yield (one[0] + dx * first, one[1] + dy * first), (one[0] + dx * last, one[1] + dy * last)


def _inside(one: Point, two: Point, room: Room) -> tuple[float, float] | None:
    """From which to which share of its length a line lies in a rectangle (after Liang and Barsky); None if it
    does not."""
    start, end = 0.0, 1.0
    for at, way, least, most in (
        (one[0], two[0] - one[0], room[0], room[2]),
        (one[1], two[1] - one[1], room[1], room[3]),
    ):
        if way == 0:
            if not least < at < most:
                return None
            continue
        enter, leave = sorted(((least - at) / way, (most - at) / way))
        start, end = max(start, enter), min(end, leave)
    return (start, end) if start < end else None


def band(one: Point, two: Point, thickness: float) -> list[Point]:
    """The corners of a straight line of some thickness."""
    dx, dy = two[0] - one[0], two[1] - one[1]
    long = hypot(dx, dy) or 1.0
    across, up = -dy / long * thickness / 2, dx / long * thickness / 2
    return [
        (one[0] + across, one[1] + up),
        (two[0] + across, two[1] + up),
        (two[0] - across, two[1] - up),
        (one[0] - across, one[1] - up),
    ]

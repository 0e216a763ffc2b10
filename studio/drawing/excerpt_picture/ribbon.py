"""A slanted or bent line as a polygon: a ribbon of one thickness around its points."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from studio.drawing.paint import Point


def ribbon(points: Sequence[Point], thickness: float) -> list[Point]:
    """The outline of a line through two or more different points: there on one side, back on the other."""
    aside = [_aside(points, number, thickness / 2) for number in range(len(points))]
    there = [(x + dx, y + dy) for (x, y), (dx, dy) in zip(points, aside, strict=True)]
    back = [(x - dx, y - dy) for (x, y), (dx, dy) in zip(points, aside, strict=True)]
    return [*there, *reversed(back)]


def _aside(points: Sequence[Point], number: int, half: float) -> Point:
    """From a point square to the way of the line there, `half` pixels."""
    (x1, y1), (x2, y2) = points[max(0, number - 1)], points[min(len(points) - 1, number + 1)]
    length = hypot(x2 - x1, y2 - y1)
    return (-(y2 - y1) / length * half, (x2 - x1) / length * half)

"""Hollow shapes, through which the ground shows."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from studio.drawing.paint import Point, Sheet
from studio.drawing.themes.contrast import Colour

_STEPS = 16  # corners of half a circle


def hollow(sheet: Sheet, outer: Sequence[Point], inner: Sequence[Point], colour: Colour) -> None:
    """What lies between two outlines that run the same way around."""
    sheet.polygon([*outer, outer[0], inner[0], *reversed(inner)], colour)


def hollow_pill(
    sheet: Sheet, box: tuple[float, float, float, float], thickness: float, colour: Colour
) -> None:
    """The outline of a box (left, top, right, bottom) with round ends, its line inside the box."""
    left, top, right, bottom = box
    inside = (left + thickness, top + thickness, right - thickness, bottom - thickness)
    hollow(sheet, _pill(box), _pill(inside), colour)


def hollow_lozenge(sheet: Sheet, x: float, y: float, half: float, thickness: float, colour: Colour) -> None:
    """The outline of a square that stands on a corner, `half` from its middle to each corner."""
    inner = half - thickness * 2**0.5
    hollow(sheet, lozenge(x, y, half), lozenge(x, y, inner), colour)


def lozenge(x: float, y: float, half: float) -> list[Point]:
    """The corners of a square that stands on one of them."""
    return [(x, y - half), (x + half, y), (x, y + half), (x - half, y)]


def _pill(box: tuple[float, float, float, float]) -> list[Point]:
    left, top, right, bottom = box
    radius = (bottom - top) / 2
    middle = (top + bottom) / 2
    turns = [pi * step / _STEPS for step in range(_STEPS + 1)]
    on_right = [(right - radius + radius * sin(turn), middle - radius * cos(turn)) for turn in turns]
    on_left = [(left + radius - radius * sin(turn), middle + radius * cos(turn)) for turn in turns]
    return [*on_right, *on_left]

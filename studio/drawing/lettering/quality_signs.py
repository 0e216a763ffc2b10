"""The signs of diminished and half-diminished chords, as large as a good fake book has them.

A text family's ° and ø are made for temperatures and for Danish: set raised, one is too small and the other a letter.
These are drawn: a ring, and a ring with a stroke through it. Their characters are those that SMuFL (Standard Music
Font Layout) gives to chord symbols: csymDiminished U+E870 and csymHalfDiminished U+E871.
"""

from __future__ import annotations

import math

DIMINISHED, HALF_DIMINISHED = "\ue870", "\ue871"

QUALITY_SIGNS = frozenset((DIMINISHED, HALF_DIMINISHED))
"""The characters that are drawn here."""

_THICK = 66.0  # of the line, thousandths of the type size, before it is made bolder with its letters
_RADIUS = {DIMINISHED: 205.0, HALF_DIMINISHED: 225.0}  # to the middle of the line
_MIDDLE = {DIMINISHED: 430.0, HALF_DIMINISHED: 345.0}  # height over the baseline
_SLASH = 400.0  # from the middle of a half-diminished sign to the end of its stroke
_ROOM = 64.0  # before and after a sign
_BEFORE = 20.0  # where a sign begins a piece of type

_OF_A_CIRCLE = 0.5523  # where the control points of a quarter circle lie, in radii


def with_signs(text: str) -> str:
    """The text of a quality with ° and ø as signs of music."""
    return text.replace("°", DIMINISHED).replace("ø", HALF_DIMINISHED)


def quality_sign(sign: str, start: float) -> tuple[str, float]:
    """Path data of a sign that stands at `start`, and how far it moves the pen, in thousandths of the type size."""
    radius, y = _RADIUS[sign], _MIDDLE[sign]
    reach = radius + _THICK / 2 if sign == DIMINISHED else (_SLASH + _THICK / 2) / math.sqrt(2)
    before = _ROOM if start else _BEFORE
    x = start + before + reach
    path = _circle(x, y, radius + _THICK / 2, 1) + _circle(x, y, radius - _THICK / 2, -1)
    if sign == HALF_DIMINISHED:
        path += _stroke(x, y)
    return path, before + 2 * reach + _ROOM


def _circle(x: float, y: float, radius: float, turn: int) -> str:
    """A circle, turning one way or the other, so that one inside another leaves a hole."""
    data = f"M{x + radius:g} {y:g}"
    for quarter in range(4):
        start, end = (turn * math.pi / 2 * (quarter + step) for step in (0, 1))
        bend = turn * _OF_A_CIRCLE * radius
        points = (
            (
                x + radius * math.cos(start) - bend * math.sin(start),
                y + radius * math.sin(start) + bend * math.cos(start),
            ),
            (
                x + radius * math.cos(end) + bend * math.sin(end),
                y + radius * math.sin(end) - bend * math.cos(end),
            ),
            (x + radius * math.cos(end), y + radius * math.sin(end)),
        )
        data += "C" + " ".join(f"{a:g} {b:g}" for a, b in points)
    return data + "Z"


def _stroke(x: float, y: float) -> str:
    """A slanted stroke through (x, y), turning as the outer circle does, so that the two join."""
    along, across = _SLASH / math.sqrt(2), _THICK / 2 / math.sqrt(2)
    corners = (
        (-along - across, -along + across),
        (-along + across, -along - across),
        (along + across, along - across),
        (along - across, along + across),
    )
    return "M" + "L".join(f"{x + dx:g} {y + dy:g}" for dx, dy in corners) + "Z"

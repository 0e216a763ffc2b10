"""Drawing single strokes of a groove: how a stroke is played is its shape, and so is what differs.

An accent is larger under a wedge, a ghost note small and hollow, an open hi-hat a cross in a ring.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from studio.drawing.grid.grid import Struck
from studio.drawing.paint import Point, Sheet
from studio.drawing.themes.contrast import Colour

RADIUS = 1.2
"""Radius of a plain stroke of a drum, in sizes of strokes."""

_DOTS = 7
"""Dots of the ring where a stroke is missing."""


class Strokes:
    """Draws strokes on a sheet; `size` is the pixels of one unit where strokes have room."""

    def __init__(self, sheet: Sheet, size: float) -> None:
        self.sheet, self.size = sheet, size

    def underline(self, x: float, y: float, colour: Colour) -> None:
        """A short bar under a stroke that is otherwise than in the groove before."""
        s = self.size
        self.sheet.rectangle(x - 1.15 * s, y + 1.75 * s, x + 1.15 * s, y + 2.15 * s, colour)

    def dotted(self, x: float, y: float, colour: Colour) -> None:
        """A ring of dots where the groove before has a stroke."""
        s = self.size
        for number in range(_DOTS):
            angle = 2 * pi * (number / _DOTS - 0.25)
            self.sheet.dot(x + 1.1 * s * cos(angle), y + 1.1 * s * sin(angle), 0.24 * s, colour)

    def stroke(self, x: float, y: float, stroke: Struck, colour: Colour) -> None:
        """One stroke, its middle at (x, y)."""
        s = self.size
        large = {"ghost": 0.8, "plain": 1.0, "accent": 1.3}[stroke.touch]
        if stroke.shape in ("cymbal", "open"):
            thin = 0.26 if stroke.touch == "ghost" else 0.46
            self._cross(x, y, (0.8 if stroke.shape == "open" else 1.05) * large * s, thin * s, colour)
            if stroke.shape == "open":
                self.sheet.ring(x, y, 1.5 * large * s, 0.3 * s, colour)
        elif stroke.shape == "hand":
            self._lozenge(x, y, 1.4 * large * s, colour, hollow=stroke.touch == "ghost")
        elif stroke.touch == "ghost":
            self.sheet.ring(x, y, RADIUS * large * s, 0.28 * s, colour)
        else:
            self.sheet.dot(x, y, RADIUS * large * s, colour)
        if stroke.touch == "accent":
            self._wedge(x, y - (3.4 if stroke.shape == "open" else 2.95) * s, s, colour)

    def _cross(self, x: float, y: float, arm: float, thickness: float, colour: Colour) -> None:
        half = thickness * 0.7072
        for side in (-1, 1):
            self.sheet.polygon(
                [
                    (x - arm - half / 2, y - side * (arm - half / 2)),
                    (x - arm + half / 2, y - side * (arm + half / 2)),
                    (x + arm + half / 2, y + side * (arm - half / 2)),
                    (x + arm - half / 2, y + side * (arm + half / 2)),
                ],
                colour,
            )

    def _lozenge(self, x: float, y: float, arm: float, colour: Colour, hollow: bool) -> None:
        corners = [(x - arm, y), (x, y - arm), (x + arm, y), (x, y + arm)]
        if not hollow:
            self.sheet.polygon(corners, colour)
            return
        inner = [(px + (x - px) * 0.4, py + (y - py) * 0.4) for px, py in corners]
        for (one, two), (near, far) in zip(_around(corners), _around(inner), strict=True):
            self.sheet.polygon([one, two, far, near], colour)

    def _wedge(self, x: float, y: float, s: float, colour: Colour) -> None:
        """The accent of written music over a stroke."""
        for side in (-1, 1):
            outer = y + side * 0.7 * s
            thick = 0.38 * s
            self.sheet.polygon(
                [
                    (x - 1.1 * s, outer - thick / 2),
                    (x + 1.1 * s, y - thick / 2),
                    (x + 1.1 * s, y + thick / 2),
                    (x - 1.1 * s, outer + thick / 2),
                ],
                colour,
            )


def is_hollow(stroke: Struck) -> bool:
    """Whether a line is seen through a stroke, and so must not run through it."""
    return stroke.touch == "ghost" and stroke.shape in ("drum", "hand")


def _around(corners: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The sides of a polygon."""
    return list(zip(corners, (*corners[1:], corners[0]), strict=True))

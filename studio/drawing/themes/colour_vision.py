"""How far two colours stand apart to the eye, and to eyes that lack one of the three kinds of cone.

The simulation is that of Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency" (IEEE TVCG 15, 2009) at full severity; the difference is CIEDE2000 (ISO/CIE 11664-6). Both are
coloraide's.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from studio.drawing.themes.contrast import Colour

if TYPE_CHECKING:
    from coloraide import Color

EYES = {
    "": "anyone",
    "protan": "red-blind eyes (protanopia)",
    "deutan": "green-blind eyes (deuteranopia)",
    "tritan": "blue-blind eyes (tritanopia)",
}
"""Whose eyes: the name of the simulation, and the words for it."""


def apart(one: Colour, other: Colour, eyes: str = "") -> float:
    """The difference of two colours in ΔE2000, as the given `eyes` see them.

    >>> apart((0, 0, 0), (255, 255, 255))
    100.0
    """
    return round(_seen(one, eyes).delta_e(_seen(other, eyes), method="2000"), 6)


@cache
def _seen(colour: Colour, eyes: str) -> Color:
    from coloraide import Color

    shown = Color("srgb", [channel / 255 for channel in colour])
    if eyes:
        shown = shown.filter(eyes, 1, method="machado")
    return shown.convert("srgb").clip()  # what a screen could show of it

"""What words are set in: a weight of the text family, and the fonts to ask for what that family lacks."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Face:
    """A weight on the text family's scale, 200 to 900, and fonts by name or path, asked one after the other.

    A theme's weights are faces, so that whoever sets type passes one value on and need not think of fonts.
    """

    weight: float
    fonts: tuple[str, ...] = ()


Weight = Face | float
"""How a caller may say what to set words in: a face, or a weight of the text family alone."""


def face_of(weight: Weight) -> Face:
    """The face that is meant."""
    return weight if isinstance(weight, Face) else Face(float(weight))

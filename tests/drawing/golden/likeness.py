"""How unlike two pictures look at a glance: the largest difference of colour in any place as large as a letter.

A pixel may have any colour that its place in the other picture would have if that were half a pixel further on, in any
direction (golden pictures are half as large as what is drawn, so that is a pixel there); what lies beyond counts, both
ways, as a difference in Oklab (B. Ottosson, "A perceptual color space for image processing", 2020). It is averaged over
places of `PLACE` pixels and the worst counts: in the mean of a whole wide chart one wrong letter would be lost.

Words in another colour of the same lightness differ little in any one place, but in all; so the mean colours of larger
places count as well, in which a shift makes no difference.
"""

from __future__ import annotations

from itertools import product

import numpy as np
from numpy.typing import NDArray
from PIL import Image

PLACE, WASH = 3, 12
WEIGHT = 2.5
"""How much more the mean colour of a place of `WASH` pixels counts, where most is ground."""

LIMIT = 14.0
"""What passes, in hundredths of the way from black to white."""

# Ottosson 2020: linear sRGB to the cones' responses, and their cube roots to Oklab.
_CONES = np.array(
    [
        [0.4122214708, 0.5363325363, 0.0514459929],
        [0.2119034982, 0.6806995451, 0.1073969566],
        [0.0883024619, 0.2817188376, 0.6299787005],
    ]
)
_OKLAB = np.array(
    [
        [0.2104542553, 0.7936177850, -0.0040720468],
        [1.9779984951, -2.4285922050, 0.4505937099],
        [0.0259040371, 0.7827717662, -0.8086757660],
    ]
)


def unlikeness(one: Image.Image, other: Image.Image) -> float:
    """0 for the same picture, 100 for black and white in one small place, 250 for them all over.

    Raises ValueError when the sizes differ.
    """
    if one.size != other.size:
        raise ValueError(f"the pictures are {one.size} and {other.size} pixels large")
    first, second = _oklab(one), _oklab(other)
    apart = np.maximum(_beyond(first, second), _beyond(second, first))
    washed = np.linalg.norm(_means(first - second, WASH), axis=-1)
    return float(100 * max(_means(apart, PLACE).max(), WEIGHT * washed.max()))


def _beyond(one: NDArray[np.float64], other: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far each pixel of one picture lies beyond what the other would have there, half a pixel further on."""
    height, width, _ = one.shape
    around = np.pad(other, ((1, 1), (1, 1), (0, 0)), mode="edge")
    least, most = other.copy(), other.copy()
    for y, x in product(range(3), repeat=2):
        further_on = (other + around[y : y + height, x : x + width]) / 2
        np.minimum(least, further_on, out=least)
        np.maximum(most, further_on, out=most)
    return np.asarray(np.linalg.norm(one - np.clip(one, least, most), axis=-1))


def _oklab(picture: Image.Image) -> NDArray[np.float64]:
    code = np.asarray(picture.convert("RGB"), np.float64) / 255
    light = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)
    return np.asarray(np.cbrt(light @ _CONES.T) @ _OKLAB.T)


def _means(values: NDArray[np.float64], side: int) -> NDArray[np.float64]:
    """The mean of each square of `side` pixels."""
    for axis in (0, 1):
        windows = np.lib.stride_tricks.sliding_window_view(values, min(side, values.shape[axis]), axis=axis)
        values = windows.mean(axis=-1)
    return values

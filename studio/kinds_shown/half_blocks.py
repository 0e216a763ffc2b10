"""A picture on a terminal that has colour: two pixels to a character, the upper half block over its ground."""

from __future__ import annotations

import numpy as np
from PIL import Image
from rich.color import Color
from rich.style import Style
from rich.text import Text

_GAMMA = 2.2


def half_blocks(picture: Image.Image, columns: int, rows: int) -> Text:
    """The picture as large as fits into so many columns and rows of characters."""
    share = min(columns / picture.width, 2 * rows / picture.height)
    size = max(1, round(picture.width * share)), max(1, round(picture.height * share / 2)) * 2
    pixels = _smaller(picture, size)
    shown = Text(no_wrap=True, overflow="crop")
    for upper_row, lower_row in zip(pixels[::2], pixels[1::2], strict=True):
        if shown:
            shown.append("\n")
        for upper, lower in zip(upper_row.tolist(), lower_row.tolist(), strict=True):
            shown.append("▀", Style(color=Color.from_rgb(*upper), bgcolor=Color.from_rgb(*lower)))
    return shown


def _smaller(picture: Image.Image, size: tuple[int, int]) -> np.ndarray:
    """(height, width, 3) pixels, 0 to 255. Light is averaged, not its code, so that thin strokes do not fade."""
    light = (np.asarray(picture.convert("RGB"), np.float32) / 255) ** _GAMMA
    planes = [Image.fromarray(light[..., n]).resize(size, Image.Resampling.BOX) for n in range(3)]
    mean = np.stack([np.asarray(plane) for plane in planes], axis=-1)
    return np.rint(255 * mean ** (1 / _GAMMA)).astype(np.uint8)

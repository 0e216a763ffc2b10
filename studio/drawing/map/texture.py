"""Textures by which things of one kind are known again without colour: as chalk shades a slate.

Each is coarse enough to be told from the next on a phone. There are eight; whoever needs more also has names.
"""

from __future__ import annotations

from functools import lru_cache

from PIL import Image, ImageDraw

from studio.drawing.paint import FINE, Sheet
from studio.drawing.themes.contrast import Colour

PITCH = 2.5
"""Units from one line or dot of a texture to the next."""

KINDS = 8

HOLLOW = -1
"""No texture: what only frames the rest."""

Box = tuple[float, float, float, float]
"""Left, top, right, bottom, in pixels."""


def fill(sheet: Sheet, box: Box, texture: int, unit: float, colour: Colour, hole: Box | None = None) -> None:
    """Fill a box with a texture, but for a hole in it; HOLLOW leaves it as it is."""
    left, top, right, bottom = (round(edge) for edge in box)
    if texture == HOLLOW or right <= left or bottom <= top:
        return
    ink = _ink(right - left, bottom - top, texture % KINDS, round(PITCH * unit * FINE))
    if hole is not None:
        ink = ink.copy()
        ink.paste(
            0, (round(hole[0]) - left, round(hole[1]) - top, round(hole[2]) - left, round(hole[3]) - top)
        )
    picture = Image.new("RGBA", ink.size, (*colour, 0))
    picture.putalpha(ink)
    sheet.lay(picture, left, top)


@lru_cache(maxsize=128)
def _ink(width: int, height: int, texture: int, pitch: int) -> Image.Image:
    """The mask of a texture; `pitch` is in fine pixels."""
    fine = Image.new("L", (width * FINE, height * FINE), 255 if texture == 0 else 0)
    draw, thick = ImageDraw.Draw(fine), round(pitch * 0.34)
    across, down = fine.size
    if texture == 2:
        _dots(draw, across, down, pitch)
    if texture in (1, 4):
        for x in range(-down, across + pitch, round(pitch * 1.4)):
            draw.line(
                [(x - pitch, down + pitch), (x + down + pitch, -pitch)], fill=255, width=round(thick * 1.2)
            )
    if texture in (4, 5):
        for x in range(-down, across + pitch, round(pitch * 1.4)):
            draw.line(
                [(x - pitch, -pitch), (x + down + pitch, down + pitch)], fill=255, width=round(thick * 1.2)
            )
    if texture in (3, 7):
        for y in range(pitch // 3, down, pitch):
            draw.rectangle((0, y, across, y + thick), fill=255)
    if texture in (6, 7):
        for x in range(pitch // 3, across, pitch):
            draw.rectangle((x, 0, x + thick, down), fill=255)
    return fine.reduce(FINE)


def _dots(draw: ImageDraw.ImageDraw, across: int, down: int, pitch: int) -> None:
    radius, step = pitch * 0.3, pitch // 2
    for row, y in enumerate(range(step // 2, down + step, step)):
        for x in range(step // 2 + (row % 2) * step, across + pitch, 2 * step):
            draw.ellipse((x - radius, y - radius, x + radius, y + radius), fill=255)

"""The shape of a wave: full, or a wall of one thickness around a thin shade."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from PIL import Image, ImageDraw

from studio.drawing.paint import FINE, Sheet
from studio.drawing.themes.contrast import Colour

Shape = list[tuple[float, float, float]]
"""(x, top, bottom) from left to right, in pixels."""

SHADE = 64
"""Of 255: how much of its colour is inside a hollow shape, so that it is told from an empty frame."""


def draw_full(sheet: Sheet, shape: Shape, colour: Colour) -> None:
    """The shape, filled."""
    sheet.polygon(_outline(shape), colour)


def draw_hollow(sheet: Sheet, shape: Shape, wall: float, colour: Colour) -> None:
    """The shape, with a shade inside wherever its wall of `wall` pixels leaves room: the panel shows through."""
    left, top = int(shape[0][0]) - 1, int(min(top for _, top, _ in shape)) - 1
    size = (int(shape[-1][0]) - left + 2, int(max(bottom for *_, bottom in shape)) - top + 2)
    fine = Image.new("L", (size[0] * FINE, size[1] * FINE), 0)
    ink = ImageDraw.Draw(fine)
    ink.polygon(_fine(shape, left, top), fill=255)
    inner = [(x, above + wall, below - wall) for x, above, below in shape[1:-1]]
    for open_, run in groupby(inner, key=lambda place: place[2] - place[1] > wall):
        places = list(run)
        if open_ and len(places) > 1:
            ink.polygon(_fine(places, left, top), fill=SHADE)
    picture = Image.new("RGBA", size, (*colour, 0))
    picture.putalpha(fine.reduce(FINE))
    sheet.lay(picture, left, top)


def _outline(shape: Sequence[tuple[float, float, float]]) -> list[tuple[float, float]]:
    return [*((x, top) for x, top, _ in shape), *((x, bottom) for x, _, bottom in reversed(shape))]


def _fine(shape: Sequence[tuple[float, float, float]], left: int, top: int) -> list[tuple[int, int]]:
    return [(round((x - left) * FINE), round((y - top) * FINE)) for x, y in _outline(shape)]

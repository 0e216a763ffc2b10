"""Painting: shapes and type laid on one transparent picture with straight alpha.

Edges are smooth: each shape is drawn `FINE` times larger and made smaller again, or comes from an outline.
Positions are pixels from the top left and may be fractions.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from PIL import Image, ImageDraw

from studio.drawing.lettering.type import Line, mask
from studio.drawing.themes.contrast import Colour

FINE = 4
"""How many times finer than the picture a shape is drawn."""

Point = tuple[float, float]


class Sheet:
    """A picture to paint on: transparent, or of one colour."""

    def __init__(self, size: tuple[int, int], ground: Colour | None = None) -> None:
        self.size = size
        self.picture = Image.new("RGBA", size, (*ground, 255) if ground else (0, 0, 0, 0))

    @property
    def width(self) -> int:
        return self.size[0]

    @property
    def height(self) -> int:
        return self.size[1]

    def panel(
        self, colour: Colour, opacity: float, radius: float, box: Sequence[float] | None = None
    ) -> None:
        """A rounded panel over the whole picture, or over `box` (left, top, right, bottom, whole pixels)."""
        left, top, right, bottom = (round(edge) for edge in (box or (0, 0, *self.size)))
        if right > left and bottom > top:
            self._lay(_panel_mask(right - left, bottom - top, round(radius)), left, top, colour, opacity)

    def rectangle(self, left: float, top: float, right: float, bottom: float, colour: Colour) -> None:
        """A filled rectangle."""
        self.polygon([(left, top), (right, top), (right, bottom), (left, bottom)], colour)

    def polygon(self, points: Sequence[Point], colour: Colour, opacity: float = 1.0) -> None:
        """A filled polygon."""
        left = int(min(x for x, _ in points)) - 1
        top = int(min(y for _, y in points)) - 1
        moved = tuple((round((x - left) * FINE), round((y - top) * FINE)) for x, y in points)
        self._lay(_polygon_mask(moved), left, top, colour, opacity)

    def stroke(self, points: Sequence[Point], thickness: float, colour: Colour) -> None:
        """A line through `points`, each stretch level or upright, with square corners."""
        half = thickness / 2
        for (x1, y1), (x2, y2) in pairwise(points):
            self.rectangle(
                min(x1, x2) - half, min(y1, y2) - half, max(x1, x2) + half, max(y1, y2) + half, colour
            )

    def dot(self, x: float, y: float, radius: float, colour: Colour) -> None:
        """A filled circle around (x, y)."""
        self._circle(x, y, radius, 0.0, colour)

    def ring(self, x: float, y: float, radius: float, thickness: float, colour: Colour) -> None:
        """A circle around (x, y) whose line lies inside `radius`."""
        self._circle(x, y, radius, radius - thickness, colour)

    def type(self, line: Line, x: float, baseline: float, colour: Colour, align: str = "left") -> None:
        """A line of type; `x` is its left end, its middle or its right end as `align` says."""
        if not line.pieces:
            return
        start = x - {"left": 0.0, "middle": line.width / 2, "right": line.width}[align]
        ink, dx, dy = mask(line)
        self._lay(ink, round(start) + dx, round(baseline) + dy, colour, 1.0)

    def lay(self, picture: Image.Image, left: int, top: int) -> None:
        """Another RGBA picture over this one; what falls outside is cut off."""
        x, y = max(0, -left), max(0, -top)
        right, bottom = min(picture.width, self.width - left), min(picture.height, self.height - top)
        if right > x and bottom > y:
            self.picture.alpha_composite(picture, (left + x, top + y), (x, y, right, bottom))

    def _circle(self, x: float, y: float, radius: float, hole: float, colour: Colour) -> None:
        left, top = int(x - radius) - 1, int(y - radius) - 1
        found = _circle_mask(round((x - left) * FINE), round((y - top) * FINE), radius * FINE, hole * FINE)
        self._lay(found, left, top, colour, 1.0)

    def _lay(self, ink: Image.Image, left: int, top: int, colour: Colour, opacity: float) -> None:
        alpha = ink if opacity >= 1 else ink.point([round(level * opacity) for level in range(256)])
        filled = Image.new("RGBA", ink.size, (*colour, 0))
        filled.putalpha(alpha)
        self.lay(filled, left, top)


@lru_cache(maxsize=64)
def _panel_mask(width: int, height: int, radius: int) -> Image.Image:
    radius = min(radius, width // 2, height // 2)
    ink = Image.new("L", (width, height), 255)
    if radius < 1:
        return ink
    fine = Image.new("L", (2 * radius * FINE, 2 * radius * FINE), 0)
    ImageDraw.Draw(fine).ellipse((0, 0, 2 * radius * FINE - 1, 2 * radius * FINE - 1), fill=255)
    disc = fine.reduce(FINE)
    for x, y in ((0, 0), (1, 0), (0, 1), (1, 1)):
        corner = disc.crop((x * radius, y * radius, (x + 1) * radius, (y + 1) * radius))
        ink.paste(corner, (x * (width - radius), y * (height - radius)))
    return ink


@lru_cache(maxsize=512)
def _polygon_mask(points: tuple[tuple[int, int], ...]) -> Image.Image:
    """`points` in fine pixels, exclusive at the right and the bottom where they are a rectangle."""
    width = max(x for x, _ in points) // FINE + 2
    height = max(y for _, y in points) // FINE + 2
    fine = Image.new("L", (width * FINE, height * FINE), 0)
    xs, ys = {x for x, _ in points}, {y for _, y in points}
    draw = ImageDraw.Draw(fine)
    if len(points) == 4 and len(xs) == 2 and len(ys) == 2:
        if max(xs) > min(xs) and max(ys) > min(ys):
            draw.rectangle((min(xs), min(ys), max(xs) - 1, max(ys) - 1), fill=255)
    else:
        draw.polygon(points, fill=255)
    return fine.reduce(FINE)


@lru_cache(maxsize=512)
def _circle_mask(x: int, y: int, radius: float, hole: float) -> Image.Image:
    side = int(max(x, y) + radius) // FINE + 2
    fine = Image.new("L", (side * FINE, side * FINE), 0)
    draw = ImageDraw.Draw(fine)
    draw.ellipse((x - radius, y - radius, x + radius - 1, y + radius - 1), fill=255)
    if hole > 0:
        draw.ellipse((x - hole, y - hole, x + hole - 1, y + hole - 1), fill=0)
    return fine.reduce(FINE)

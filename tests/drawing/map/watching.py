"""What is wrong with the type in a picture: what leaves the panel, touches other type, or is too small to be read."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import combinations
from typing import Any
from unittest.mock import patch

import numpy as np
from PIL import Image

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.type import Line, mask
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.timeline.kind import Kind


@dataclass(frozen=True)
class Laid:
    """A line of type and where its ink is: left, top, right, bottom, in pixels."""

    words: str
    smallest: float
    box: tuple[int, int, int, int]
    ink: np.ndarray

    def touches(self, other: Laid) -> bool:
        """Whether two inks have a pixel in common."""
        left, top = max(self.box[0], other.box[0]), max(self.box[1], other.box[1])
        right, bottom = min(self.box[2], other.box[2]), min(self.box[3], other.box[3])
        if right <= left or bottom <= top:
            return False
        one, two = (
            laid.ink[top - laid.box[1] : bottom - laid.box[1], left - laid.box[0] : right - laid.box[0]]
            for laid in (self, other)
        )
        return bool(((one > 60) & (two > 60)).any())


@contextmanager
def watching() -> Iterator[list[Laid]]:
    """The type that is laid on any sheet."""
    found: list[Laid] = []
    lay = Sheet.type

    def watched(
        sheet: Sheet, line: Line, x: float, baseline: float, colour: Colour, align: str = "left"
    ) -> None:
        if line.pieces:
            start = x - {"left": 0.0, "middle": line.width / 2, "right": line.width}[align]
            ink, dx, dy = mask(line)
            left, top = round(start) + dx, round(baseline) + dy
            words = "".join(piece.text for piece in line.pieces)
            box = (left, top, left + ink.width, top + ink.height)
            found.append(Laid(words, line.smallest, box, np.asarray(ink)))
        lay(sheet, line, x, baseline, colour, align)

    with patch.object(Sheet, "type", watched):
        yield found


def type_faults(kind: Kind, content: Any, look: Any, size: tuple[int, int], theme: Theme) -> list[str]:
    """What is wrong with the type of a picture, in words; none if nothing is."""
    canvas: CanvasSize = content.canvas
    with watching() as found:
        kind.draw(content, look, size, theme)
    edge, least = 0.5 * canvas.unit, canvas.pixels(SMALLEST)
    faults = [f"no type at all in {size}"] if not found else []
    for laid in found:
        left, top, right, bottom = laid.box
        if left < edge or top < edge or right > size[0] - edge or bottom > size[1] - edge:
            faults.append(f"'{laid.words}' at {laid.box} leaves the panel of {size}")
        if laid.smallest < least - 0.01:
            faults.append(f"'{laid.words}' is {laid.smallest:.1f} px tall, under {least:.1f}")
    touching = ((one, two) for one, two in combinations(found, 2) if one.touches(two))
    return [*faults, *(f"'{one.words}' touches '{two.words}'" for one, two in touching)]


def sizes_of(kind: Kind, content: Any, width: int, theme: Theme) -> list[tuple[int, int]]:
    """The sizes at which a callout may be drawn: its least, what it wants, and half as much again."""
    extent = kind.extent(content, width, theme)
    unit: float = content.canvas.unit
    return [(width, round(units * unit)) for units in (extent.least, extent.wanted, 1.5 * extent.wanted)]


def ink_on_bright(picture: Image.Image, theme: Theme) -> np.ndarray:
    """How much more a picture hides than its panel does, [row, column], by its alpha: 0 where only panel is."""
    alpha = np.asarray(picture)[..., 3].astype(int)
    return np.asarray(alpha - round(255 * theme.panel_opacity))

"""What the waves of stems hold: a row for each stem, and the bars over which they stand."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.frame import CanvasSize
from studio.drawing.map.ruler import Ruler

COLUMN = 0.5
"""Units of one column of a wave: four pixels at 1080, the width of a line of chalk."""


@dataclass(frozen=True)
class StemRow:
    """A stem: its name, its wave as (lowest, highest) in thousandths of the row's half height, whether the excerpt
    plays it, and whether it is silent over this stretch."""

    name: str
    wave: tuple[tuple[int, int], ...]
    sounds: bool
    silent: bool


@dataclass(frozen=True)
class Waves:
    """The stems over a stretch of song, whose bars start at `bars` (number, share). `note` says what the scale is."""

    canvas: CanvasSize
    ruler: Ruler
    rows: tuple[StemRow, ...]
    bars: tuple[tuple[int, float], ...]
    note: str


def columns(width: int, canvas: CanvasSize) -> int:
    """How many columns a wave has in a picture of this width, most of which is waves."""
    return max(1, round(width * 0.82 / (COLUMN * canvas.unit)))

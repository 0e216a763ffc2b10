"""The small print of a map: its size and its lines, by the sizes of the theme."""

from __future__ import annotations

from collections.abc import Iterable

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain, wrap
from studio.drawing.themes.theme import SMALLEST, Theme

LEADING = 1.2
"""From one baseline to the next, in sizes of type."""

TAIL = 0.27
"""How far letters hang under their baseline, with a little air, in sizes of type."""


def print_size(said: Iterable[str], width: float, canvas: CanvasSize, theme: Theme) -> float:
    """Pixels: the small size of the theme, or less where a word at that size would be wider than `width`."""
    size, regular = canvas.pixels(theme.sizes.small), theme.weights.regular
    words = (word for one in said for word in wrap(one, size, regular, 1.0))
    widest = max((plain(word, size, regular).width for word in words), default=0.0)
    return max(canvas.pixels(SMALLEST), size * min(1.0, width / widest)) if widest else size


def tall(lines: int, size: float) -> float:
    """From the top of the capitals of the first line to the baseline of the last. Pixels."""
    return (CAP + LEADING * (lines - 1)) * size if lines else 0.0

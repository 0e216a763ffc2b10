"""The ground of a segment without a camera: dark slate, the segment's title, a quiet line about the song."""

from __future__ import annotations

from PIL import Image

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.type import balanced, plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.timeline.furniture import Backdrop

TOP = 15.0
"""Units from the top edge to the title: under the row where the rough cut burns in its words."""


def draw(content: Backdrop, look: object, size: tuple[int, int], theme: Theme) -> Image.Image:
    """An opaque picture of the canvas's size."""
    canvas = CanvasSize(*size)
    sheet = Sheet(size, theme.colours.ground)
    title_on(sheet, canvas, theme, content.title, content.line)
    return sheet.picture


def title_on(sheet: Sheet, canvas: CanvasSize, theme: Theme, title: str, line: str) -> float:
    """A title and a quiet line under it; returns where they end, in pixels from the top."""
    left, size = canvas.width * 0.05, canvas.pixels(theme.sizes.title)
    baseline = canvas.height * 0.05 + TOP * canvas.unit
    for words in balanced(title, size, theme.weights.strong, canvas.lane)[:3]:
        fitted = plain(words, size, theme.weights.strong).fitted(canvas.lane)
        sheet.type(fitted, left, baseline, theme.colours.ink)
        baseline += size * 1.15
    small = canvas.pixels(theme.sizes.label)
    if line:
        baseline -= (size - small) * 0.6
        fitted = plain(line, small, theme.weights.regular).fitted(canvas.lane)
        sheet.type(fitted, left, baseline, theme.colours.quiet)
        baseline += small
    return baseline

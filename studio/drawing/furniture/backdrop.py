"""The ground of a segment with a camera, and of what has no segment: bare, or with a title and a quiet line."""

from __future__ import annotations

from PIL import Image

from studio.drawing.frame import CanvasSize
from studio.drawing.furniture.title import title_on
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.timeline.furniture import Backdrop


def draw(content: Backdrop, look: object, size: tuple[int, int], theme: Theme) -> Image.Image:
    """An opaque picture of the canvas's size."""
    sheet = Sheet(size, theme.colours.ground)
    title_on(sheet, CanvasSize(*size), theme, content.title, content.line)
    return sheet.picture

"""The small shapes that move over a callout with the sound: an upright line, a dot, a pointer.

Each has an edge of the panel's colour, so that it stands out from whatever it passes over.
"""

from __future__ import annotations

from PIL import Image

from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.timeline.furniture import MarkPicture


def draw(content: MarkPicture, look: object, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The shape in the accent of what sounds now, filling a picture of `size`."""
    sheet, (width, height) = Sheet(size), size
    edge, now, ground = max(1.0, min(size) * 0.2), theme.colours.now, theme.colours.panel
    if content.shape == "line":
        sheet.rectangle(0, 0, width, height, ground)
        sheet.rectangle(edge, 0, width - edge, height, now)
    elif content.shape == "dot":
        radius = min(size) / 2
        sheet.dot(width / 2, height / 2, radius, ground)
        sheet.dot(width / 2, height / 2, radius - edge, now)
    else:
        sheet.polygon([(0, 0), (width, 0), (width / 2, height)], ground)
        sheet.polygon([(edge, edge / 2), (width - edge, edge / 2), (width / 2, height - edge)], now)
    return sheet.picture

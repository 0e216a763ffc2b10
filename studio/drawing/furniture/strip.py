"""The one ornament: a thin strip of slanted bars, as on a clapper, that fills as an excerpt plays."""

from __future__ import annotations

from PIL import Image

from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import over
from studio.drawing.themes.theme import Theme
from studio.timeline.furniture import Strip

SLANT = 0.9
"""How far a bar leans, in shares of its height."""

FILLED = 0.62
"""Width of a bar in shares of the distance to the next."""


def draw(content: Strip, look: int | None, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The strip with `look` bars filled; the last of them is where the music is."""
    width, height = size
    colours, filled = theme.colours, look or 0
    sheet = Sheet(size)
    sheet.panel(colours.panel, theme.panel_opacity, 0.0)
    empty = over(colours.rule, 0.42, colours.panel)
    lean, edge = SLANT * height, 0.19 * height
    step = (width - lean - edge) / content.bars
    for number in range(content.bars):
        left = edge + number * step
        right = left + step * FILLED
        colour = colours.now if number == filled - 1 else colours.ink if number < filled else empty
        inset = 0.0 if number == filled - 1 else edge
        foot, head = height - inset, inset
        slope = lean / height
        sheet.polygon(
            [
                (left + slope * inset, foot),
                (right + slope * inset, foot),
                (right + lean - slope * inset, head),
                (left + lean - slope * inset, head),
            ],
            colour,
        )
    return sheet.picture

"""What is burnt into the rough cut: words in a small box, and digits that do not move when they change."""

from __future__ import annotations

from PIL import Image

from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain, shortened
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.timeline.furniture import Burnt

SIZE = 0.64
"""Size of the type, in shares of the box's height: at 48 pixels it is still 30."""


def draw(content: Burnt, look: str, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The words `look` on a ground as wide as the widest that the field will show.

    Fields stand edge to edge: a right-aligned one ends at its right edge, so that digits that follow in the
    next field read on. All digits of the family are equally wide.
    """
    width, height = size
    body, weight = SIZE * height, theme.weights.strong
    pad = 0.0 if content.widest.isdigit() else height / 6
    room = width - pad
    line = shortened(look, body, weight, room - height / 6)
    sheet = Sheet(size)
    ground = min(room, max(plain(content.widest, body, weight).width, line.width)) + pad
    baseline = round((height + CAP * body) / 2)
    if content.align == "right":
        sheet.panel(theme.colours.panel, theme.panel_opacity, 0.0, (width - ground, 0, width, height))
        sheet.type(line, width, baseline, theme.colours.ink, "right")
    else:
        sheet.panel(theme.colours.panel, theme.panel_opacity, 0.0, (0, 0, ground + height / 6, height))
        sheet.type(line, pad, baseline, theme.colours.ink)
    return sheet.picture

"""Pages of a callout that does not fit its panel at once: which one is shown, as a row of dots."""

from __future__ import annotations

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme

RADIUS, STEP, RISE = 0.55, 2.0, 1.3
"""Units: a dot's radius, from one dot to the next, from the panel's lower edge to their middle."""


def page_dots(sheet: Sheet, count: int, page: int, canvas: CanvasSize, theme: Theme) -> None:
    """A dot for each page in the lower right corner, the one that is shown filled; none for a single page."""
    u = canvas.unit
    for number in range(count if count > 1 else 0):
        x = sheet.width - (PADDING + (count - 1 - number) * STEP) * u
        y = sheet.height - RISE * u
        if number == page:
            sheet.dot(x, y, RADIUS * 1.4 * u, theme.colours.ink)
        else:
            sheet.ring(x, y, RADIUS * u, 0.22 * u, theme.colours.quiet)

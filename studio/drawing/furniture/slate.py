"""The ground of a segment that is only talk: its script, page by page, for the person who will say it."""

from __future__ import annotations

from PIL import Image

from studio.drawing.frame import CanvasSize
from studio.drawing.furniture.backdrop import title_on
from studio.drawing.lettering.type import plain, wrap
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.timeline.furniture import Slate

LEADING = 1.42
"""From one baseline to the next, in sizes of type: room for an eye that reads aloud."""

MEASURE = 27.0
"""Width of a line of script at most, in sizes of type: about sixty letters."""


def draw(content: Slate, look: int, size: tuple[int, int], theme: Theme) -> Image.Image:
    """An opaque picture of the canvas's size, with page `look` from 0; -1 is a slate without its script."""
    canvas = CanvasSize(*size)
    sheet = Sheet(size, theme.colours.ground)
    pages = len(content.pages)
    folio = f"page {look + 1} of {pages}" if pages > 1 and look >= 0 else ""
    line = "  ·  ".join(part for part in (content.reading, folio) if part)
    top = title_on(sheet, canvas, theme, content.title, line) + 4 * canvas.unit
    text = content.pages[look] if 0 <= look < pages else ""
    body, lines = _set(text, canvas, size[1] * (0.8 if canvas.portrait else 0.93) - top, theme)
    baseline = top + body
    for words in lines:
        if words:
            sheet.type(
                plain(words, body, theme.weights.regular), canvas.width * 0.05, baseline, theme.colours.ink
            )
        baseline += body * (LEADING if words else LEADING / 2)
    return sheet.picture


def _set(text: str, canvas: CanvasSize, room: float, theme: Theme) -> tuple[float, list[str]]:
    """The size and the lines at which a page fits its room; an empty line stands between paragraphs."""
    size, least = canvas.pixels(theme.sizes.body), canvas.pixels(SMALLEST)
    while True:
        lines: list[str] = []
        for paragraph in text.split("\n\n"):
            measure = min(canvas.lane, MEASURE * size)
            lines += [*wrap(paragraph, size, theme.weights.regular, measure), ""]
        if len(lines) * LEADING * size <= room or size <= least:
            return size, lines[:-1]
        size = max(least, size * 0.94)

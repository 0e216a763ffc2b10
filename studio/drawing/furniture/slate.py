"""The ground of a segment without a camera: its title, and its script page by page for the person who will say it."""

from __future__ import annotations

from PIL import Image

from studio.drawing.frame import CanvasSize
from studio.drawing.furniture.title import title_on
from studio.drawing.lettering.outlines import CAP, DESCENDER
from studio.drawing.lettering.type import shortened, side, wrap
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.timeline.furniture import Slate

LEADING = 1.42
"""From one baseline to the next, in sizes of type: room for an eye that reads aloud."""

MEASURE = 27.0
"""Width of a line of script at most, in sizes of type: about sixty letters."""

UNDER = 4.5
"""Units between the title's row and the script."""

_BETWEEN = 0.5  # space between paragraphs, in lines

Lines = list[tuple[str, bool]]
"""Lines of script, and whether each stands at the right; an empty one is the space between paragraphs."""


def draw(content: Slate, look: int, size: tuple[int, int], theme: Theme) -> Image.Image:
    """An opaque picture of the canvas's size, with page `look` from 0; -1 is a slate without its script."""
    canvas = CanvasSize(*size)
    sheet = Sheet(size, theme.colours.ground)
    pages = len(content.pages)
    folio = f"page {look + 1} of {pages}" if pages > 1 and look >= 0 else ""
    line = "  ·  ".join(part for part in (content.reading, folio) if part)
    top = title_on(sheet, canvas, theme, content.title, line) + UNDER * canvas.unit
    text = content.pages[look] if 0 <= look < pages else ""
    room = size[1] * (0.8 if canvas.portrait else 0.93) - top
    body, lines = _set(text, canvas, room, theme)
    left = canvas.width * 0.05
    baseline = top + CAP * body
    for words, from_right in lines:
        if words:
            line_of = shortened(words, body, theme.weights.regular, canvas.lane)
            edge, at = (left + canvas.lane, "right") if from_right else (left, "left")
            sheet.type(line_of, edge, baseline, theme.colours.ink, at)
        baseline += body * LEADING * (1.0 if words else _BETWEEN)
    return sheet.picture


def _set(text: str, canvas: CanvasSize, room: float, theme: Theme) -> tuple[float, Lines]:
    """The size and the lines at which a page fits its room; at the smallest size it is cut, and says so."""
    size, least = canvas.pixels(theme.sizes.body), canvas.pixels(SMALLEST)
    while True:
        lines = _lines(text, canvas, size, theme)
        if _tall(lines, size) <= room:
            return size, lines
        if size <= least:
            return size, _cut(lines, size, room)
        size = max(least, size * 0.94)


def _lines(text: str, canvas: CanvasSize, size: float, theme: Theme) -> Lines:
    found: Lines = []
    for paragraph in text.split("\n\n"):
        measure, from_right = min(canvas.lane, MEASURE * size), side(paragraph) == "right"
        lines = wrap(paragraph, size, theme.weights.regular, measure)
        found += [*((line, from_right) for line in lines), ("", False)]
    return found[:-1]


def _tall(lines: Lines, size: float) -> float:
    full = sum(bool(words) for words, _ in lines)
    spaces = len(lines) - full
    return size * (CAP + DESCENDER + (full - 1) * LEADING + spaces * _BETWEEN * LEADING) if full else 0.0


def _cut(lines: Lines, size: float, room: float) -> Lines:
    while len(lines) > 1 and _tall(lines, size) > room:
        lines = lines[:-1]
    words, from_right = lines[-1]
    return [*lines[:-1], (f"{words} …".strip(), from_right)]

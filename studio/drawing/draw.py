"""One door for whoever wants a picture: any kind of callout, and the pictures that every episode has."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from PIL import Image

from studio.drawing.furniture import backdrop, burnt, mark, slate, strip
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import Theme

Drawing = Callable[[Any, Any, tuple[int, int], Theme], Image.Image]

FURNITURE: Mapping[str, Drawing] = {
    "backdrop": backdrop.draw,
    "slate": slate.draw,
    "strip": strip.draw,
    "burnt": burnt.draw,
    "mark": mark.draw,
}
"""What is drawn for the contents of `studio.timeline.furniture`, by their kind."""


def draw(kind: str, content: Any, look: Any, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The picture of one look of one content: RGBA, straight alpha, exactly `size` (width, height) in pixels.

    Depends on nothing but its arguments: the same ones give the same bytes on every machine.
    """
    drawing = FURNITURE.get(kind) or KINDS[kind].draw
    return drawing(content, look, size, theme)

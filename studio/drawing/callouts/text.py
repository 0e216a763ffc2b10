"""The text callout: words with facts in them, along the bottom of the picture."""

from __future__ import annotations

from dataclasses import dataclass

from PIL import Image

from studio.drawing.frame import PADDING, CanvasSize, panelled
from studio.drawing.lettering.outlines import CAP, missing
from studio.drawing.lettering.type import balanced, plain
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.project.callouts import CalloutOptions, FactText
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

MOST_LINES = {False: 2, True: 3}
"""Lines on a wide and on a tall canvas: what is read at a glance."""

LEADING = 1.28
"""From one baseline to the next, in sizes of type."""


class TextOptions(CalloutOptions):
    """Options of the text callout."""

    say: FactText


@dataclass(frozen=True)
class Words:
    """What is said, with its facts filled in."""

    canvas: CanvasSize
    text: str


class TextKind(Kind):
    """See the module."""

    name = "text"
    says = "words with facts in them"
    slots = ("lower", "top", "left", "right", "card")
    example = "{kind: text, say: 'The chorus goes {loop}'}"
    Options = TextOptions

    def compose(self, options: TextOptions, ask: Ask) -> Composed:
        canvas = CanvasSize.of(ask.canvas)
        said = " ".join(ask.fill(options.say).split())
        if not said:
            ask.refuse("say", "it says nothing; write the words to show")
        if strange := missing(said):
            ask.refuse("say", f"the typeface has no {' '.join(strange)}; write it another way")
        content = Words(canvas, said)
        size, lines = _set(content, ask.room.width, ask.theme)
        if len(lines) > MOST_LINES[canvas.portrait] or _widest(lines, size, ask.theme) > _room(
            canvas, ask.room.width
        ):
            ask.refuse("say", "this is too long to read at a glance; say it in fewer words")
        return Composed(content, (), None, None, said)

    def extent(self, content: Words, width: int, theme: Theme) -> Extent:
        size, lines = _set(content, width, theme)
        wanted = 2 * PADDING + _tall(len(lines), size) / content.canvas.unit + 1.5
        return Extent(wanted, wanted)

    def draw(self, content: Words, look: None, size: tuple[int, int], theme: Theme) -> Image.Image:
        sheet = panelled(size, content.canvas, theme)
        body, lines = _set(content, size[0], theme)
        room = size[1] - 2 * content.canvas.unit
        body *= min(1.0, room / _tall(len(lines), body))
        baseline = (size[1] - _tall(len(lines), body)) / 2 + CAP * body
        for text in lines:
            line = plain(text, body, theme.weights.strong)
            sheet.type(line, PADDING * content.canvas.unit, baseline, theme.colours.ink)
            baseline += LEADING * body
        return sheet.picture


KIND = TextKind()


def _set(content: Words, width: float, theme: Theme) -> tuple[float, tuple[str, ...]]:
    """Size and lines: as large as the theme has it, or as much smaller as it takes to be few lines."""
    canvas = content.canvas
    room = _room(canvas, width)
    size, least = canvas.pixels(theme.sizes.body), canvas.pixels(SMALLEST)
    while True:
        lines = balanced(content.text, size, theme.weights.strong, room)
        short = len(lines) <= MOST_LINES[canvas.portrait] and _widest(lines, size, theme) <= room
        if short or size <= least:
            return size, lines
        size = max(least, size * 0.94)


def _room(canvas: CanvasSize, width: float) -> float:
    return width - 2 * PADDING * canvas.unit


def _widest(lines: tuple[str, ...], size: float, theme: Theme) -> float:
    return max(plain(text, size, theme.weights.strong).width for text in lines)


def _tall(lines: int, size: float) -> float:
    return (lines - 1) * LEADING * size + CAP * size

"""The text callout: words with facts in them, along the bottom of the picture."""

from __future__ import annotations

from dataclasses import dataclass

from PIL import Image

from studio.drawing.frame import LOWER, PADDING, CanvasSize, panelled
from studio.drawing.outlines import CAP, missing
from studio.drawing.theme import SMALLEST, Theme, default_theme
from studio.drawing.type import balanced, plain
from studio.project.callouts import CalloutOptions, FactText
from studio.project.episode_values import Canvas
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed

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


class TextKind:
    """See the module."""

    name = "text"
    Options = TextOptions
    slot = LOWER

    def compose(self, options: TextOptions, ask: Ask) -> Composed:
        canvas = CanvasSize(ask.canvas.width, ask.canvas.height)
        said = " ".join(ask.fill(options.say).split())
        if not said:
            ask.refuse("say", "it says nothing; write the words to show")
        if strange := missing(said):
            ask.refuse("say", f"the typeface has no {' '.join(strange)}; write it another way")
        content = Words(canvas, said)
        size, lines = _set(content, canvas.lane, default_theme())
        if len(lines) > MOST_LINES[canvas.portrait] or _widest(lines, size, default_theme()) > _room(
            canvas, canvas.lane
        ):
            ask.refuse("say", "this is too long to read at a glance; say it in fewer words")
        return Composed(content, (), None, None, said)

    def height(self, content: Words, canvas: Canvas) -> int:
        size, lines = _set(content, content.canvas.lane, default_theme())
        return -int(-(2 * PADDING + _tall(len(lines), size) / content.canvas.unit + 1.5) // 1)

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

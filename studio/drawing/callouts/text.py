"""The text callout: words with facts in them, as large as a glance needs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from PIL import Image
from pydantic import Field

from studio.drawing.frame import CORNER, PADDING, CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.runs import without_font
from studio.drawing.lettering.type import balanced, plain, side
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.project.callouts import CalloutOptions, FactText
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

LEADING = 1.28
"""From one baseline to the next, in sizes of type."""

AIR = 1.5
"""Units of a panel's height beside its padding and its lines, for tails and accents."""

NEARLY = 0.9
"""Share of a slot's width that words need for their panel to fill it."""

NARROW = 18.0
"""Sizes of body type across which a panel is a column."""

_FEW, _TALL, _CARD, _COLUMN = 2, 3, 4, 8  # lines: on a wide and on a tall canvas, on a card, in a column
_SMALLER = 0.94


class TextOptions(CalloutOptions):
    """Options of the text callout."""

    say: FactText = Field(description="the words; {name} stands for the answer of a fact")


@dataclass(frozen=True)
class Words:
    """What is said, with its facts filled in, whether it has a card of its own and is set large, and whether its panel
    is only as wide as the words are: in a band across the picture, where a column or a card is filled."""

    canvas: CanvasSize
    text: str
    large: bool = False
    hugged: bool = False

    @property
    def edge(self) -> float:
        """Units between the panel's edges and the words."""
        return 2 * PADDING if self.large else PADDING

    @property
    def around(self) -> float:
        """Pixels of a panel's height beside its lines."""
        return (2 * self.edge + AIR) * self.canvas.unit


class TextKind(Kind):
    """See the module."""

    name = "text"
    says = "words with facts in them"
    slots = ("lower", "top", "left", "right", "card")
    example = "{kind: text, say: 'The chorus goes {loop}'}"
    Options = TextOptions

    def compose(self, options: TextOptions, ask: Ask) -> Composed:
        said = " ".join(ask.fill(options.say).split())
        if not said:
            ask.refuse("say", "it says nothing; write the words to show")
        if lacking := without_font(said, ask.theme.weights.strong):
            ask.refuse("say", lacking)
        slot = options.slot or self.slot(ask.canvas)
        content = Words(
            CanvasSize.of(ask.canvas), said, large=slot == "card", hugged=slot in ("lower", "top")
        )
        if not _fits(_smallest(content, ask.room.width, ask.theme), *_inside(content, ask)):
            remedy = "" if ask.room.width > content.canvas.lane / 2 else ", or give it a wider 'slot'"
            ask.refuse("say", f"this is too long to read at a glance; say it in fewer words{remedy}")
        return Composed(content, (), None, None, said)

    def extent(self, content: Words, width: int, theme: Theme) -> Extent:
        wanted = _set(content, width, None, theme)
        least = min(wanted.tall, _smallest(content, width, theme).tall)
        u = content.canvas.unit
        return Extent((least + content.around) / u, (wanted.tall + content.around) / u)

    def draw(self, content: Words, look: None, size: tuple[int, int], theme: Theme) -> Image.Image:
        found = _set(content, size[0], size[1] - content.around + 1, theme)
        sheet = Sheet(size)
        left, right = _across(content, found, size[0])
        box = (left, 0, right, size[1])
        sheet.panel(theme.colours.panel, theme.panel_opacity, CORNER * content.canvas.unit, box)
        body = found.size
        baseline = (size[1] - found.tall) / 2 + CAP * body
        at, edge = side(content.text), content.edge * content.canvas.unit
        for text in found.lines:
            line = plain(text, body, theme.weights.strong)
            sheet.type(line, left + edge if at == "left" else right - edge, baseline, theme.colours.ink, at)
            baseline += LEADING * body
        return sheet.picture


KIND = TextKind()


@dataclass(frozen=True)
class _Setting:
    """Lines at a size, and what they take, in pixels."""

    size: float
    lines: tuple[str, ...]
    widest: float

    @property
    def tall(self) -> float:
        return (len(self.lines) - 1) * LEADING * self.size + CAP * self.size


def _set(content: Words, width: float, height: float | None, theme: Theme) -> _Setting:
    """As large as the theme has it, or as much smaller as it takes to be few lines and no taller than `height`."""
    room, most = _room(content, width), _most_lines(content, width, theme)
    for size in _sizes(content, theme):
        found = _lines(content, size, room, theme)
        if _fits(found, room, height, most):
            break
    return found


def _across(content: Words, found: _Setting, width: int) -> tuple[int, int]:
    """The panel's left and right in pixels: where the words begin, and no further than they reach."""
    needed = found.widest + 2 * content.edge * content.canvas.unit
    if not content.hugged or needed > NEARLY * width:
        return 0, width
    return (0, round(needed)) if side(content.text) == "left" else (width - round(needed), width)


def _smallest(content: Words, width: float, theme: Theme) -> _Setting:
    return _lines(content, content.canvas.pixels(SMALLEST), _room(content, width), theme)


def _inside(content: Words, ask: Ask) -> tuple[float, float, int]:
    """The room inside a slot's panel, and how many lines may be in it."""
    most = _most_lines(content, ask.room.width, ask.theme)
    return _room(content, ask.room.width), ask.room.height - content.around, most


def _fits(found: _Setting, room: float, height: float | None, most: int) -> bool:
    low = height is None or found.tall <= height
    return len(found.lines) <= most and found.widest <= room and low


def _sizes(content: Words, theme: Theme) -> Iterator[float]:
    """From the largest size of type that a content may have down to the smallest that can be read."""
    canvas = content.canvas
    size, least = (
        canvas.pixels(theme.sizes.hero if content.large else theme.sizes.body),
        canvas.pixels(SMALLEST),
    )
    while size > least:
        yield size
        size *= _SMALLER
    yield least


def _lines(content: Words, size: float, room: float, theme: Theme) -> _Setting:
    weight = theme.weights.strong
    lines = balanced(content.text, size, weight, room)
    return _Setting(size, lines, max(plain(line, size, weight).width for line in lines))


def _most_lines(content: Words, width: float, theme: Theme) -> int:
    """How many lines are read at a glance: a column holds more of them, as they are short."""
    if content.large:
        return _CARD
    if _room(content, width) < NARROW * content.canvas.pixels(theme.sizes.body):
        return _COLUMN
    return _TALL if content.canvas.portrait else _FEW


def _room(content: Words, width: float) -> float:
    return width - 2 * content.edge * content.canvas.unit

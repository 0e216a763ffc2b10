"""Drawing the keys of a song to scale: a block for each stretch in one key, and under them how each key is reached.

Where there is height each change has a card, tied to its place by a line; where there is not, a caption tells of the
key that sounds.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from PIL import Image

from studio.drawing.frame import PADDING, panelled
from studio.drawing.lettering.type import plain
from studio.drawing.map.block import name_height
from studio.drawing.map.blocks import Blocks
from studio.drawing.map.here import Here
from studio.drawing.map.key_map import KeyMap
from studio.drawing.map.key_setting import (
    CAPTION_GAP,
    CARD_GAP,
    INDENT,
    NUMBER_GAP,
    TEXTURE,
    TEXTURE_MOST,
    Card,
    Setting,
    setting,
)
from studio.drawing.map.now import OVER, pointer_height
from studio.drawing.map.small_print import LEADING, tall
from studio.drawing.paint import Sheet
from studio.drawing.pointer import pointer
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme
from studio.timeline.kind import Mark


class _Heights:
    """Where things stand in a picture of some height. Pixels."""

    def __init__(self, found: Setting, height: float) -> None:
        u = found.u
        extra = height / u - found.carded
        self.cards = extra > -0.01
        if not self.cards:
            extra = height / u - found.extent.least
        grown = max(0.0, min(TEXTURE_MOST - TEXTURE, extra))
        self.top = (PADDING + max(0.0, extra - grown) / 2) * u
        self.named = name_height(found.names, found.content.canvas) * u
        self.blocks = self.top + OVER * u
        self.floor = self.blocks + self.named + (TEXTURE + grown) * u
        self.note = height - self.top + (PADDING - found.foot) * u


def draw_keys(content: KeyMap, look: Here, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The keys with the block of `look` lit, and with cards or a caption as the height allows."""
    sheet = panelled(size, content.canvas, theme)
    found = setting(content, size[0], theme)
    _Keys(sheet, found, _Heights(found, size[1]), look).draw()
    return sheet.picture


def key_marks(content: KeyMap, size: tuple[int, int], theme: Theme) -> tuple[Mark, ...]:
    """The pointer over the blocks."""
    found = setting(content, size[0], theme)
    heights = _Heights(found, size[1])
    y = pointer_height(heights.blocks, found.u)
    return (pointer(found.u, content.ruler.legs(content.ruler.span, found.left, found.room, y)),)


class _Keys:
    """One map of keys on one sheet."""

    def __init__(self, sheet: Sheet, found: Setting, heights: _Heights, look: Here) -> None:
        self.sheet, self.found, self.heights, self.look = sheet, found, heights, look
        self.content, self.theme, self.u = found.content, found.theme, found.u
        self.blocks = Blocks(sheet, self.content.canvas, self.theme)

    def draw(self) -> None:
        found, floor, colours = self.found, self.heights.floor, self.theme.colours
        lit = set(self.look.blocks)
        for number in range(len(self.content.blocks)):
            self._block(number, number in lit)
        if self.heights.cards:
            self._cards(lit)
            baseline = self.heights.note - LEADING * found.small * (len(found.note) - 1)
            self._lines(found.note, found.left, baseline, colours.quiet)
        else:
            baseline = floor + CAPTION_GAP * self.u + tall(1, found.small)
            self._lines(found.captions[min(lit, default=-1)], found.left, baseline, colours.ink)

    def _block(self, number: int, lit: bool) -> None:
        block, found, heights = self.content.blocks[number], self.found, self.heights
        box = (found.x(block.begin), heights.blocks, found.x(block.end), heights.floor)
        self.blocks.draw(block, found.names.lines[number], found.names.size, box, heights.named, lit)

    def _cards(self, lit: set[int]) -> None:
        found, u = self.found, self.u
        top = self.heights.floor + found.lead * u
        if not found.tied:
            self._numbers()
        for number, card in enumerate(found.cards):
            row = number // found.across
            at = top + (sum(found.card_heights[:row]) + CARD_GAP * row) * u
            left, now = found.card_lefts[number], card.change.block in lit
            colour = self.theme.colours.now if now else self.theme.colours.rule
            thick = (0.6 if now else 0.3) * u
            self.sheet.rectangle(left, at, left + thick, at + found.card_heights[row] * u, colour)
            if found.tied:
                self._tie(found.x(self.content.blocks[card.change.block].begin), left, at, thick, colour)
            self._card(card, left + INDENT * u, at + found.card_air() * u, now)

    def _tie(self, x: float, left: float, top: float, thick: float, colour: Colour) -> None:
        """A line as thick as the edge of a card, from a change on the floor to that edge."""
        floor, middle = self.heights.floor, thick / 2
        across, down = left - x, top - floor
        aside, off = (middle * side / hypot(across, down) for side in (down, across))
        one, two = (x + middle, floor), (left + middle, top)
        self.sheet.polygon(
            [
                (one[0] - aside, one[1] + off), (two[0] - aside, two[1] + off),
                (two[0] + aside, two[1] - off), (one[0] + aside, one[1] - off),
            ],
            colour,
        )  # fmt: skip

    def _numbers(self) -> None:
        """The bar of each change under it, by which its card is found; those without room are left out."""
        free = 0.0
        for change in self.content.changes:
            words = change.place.partition(",")[0].removeprefix("bar ")
            line = plain(words, self.found.small, self.theme.weights.regular)
            x = self.found.x(self.content.blocks[change.block].begin) - line.width / 2
            if x >= free and x + line.width <= self.sheet.width:
                baseline = self.heights.floor + NUMBER_GAP * self.u + line.cap
                self.sheet.type(line, x, baseline, self.theme.colours.quiet)
                free = x + line.width + self.u

    def _card(self, card: Card, left: float, top: float, now: bool) -> None:
        colours, found = self.theme.colours, self.found
        self._lines(card.place, left, top + tall(1, found.small), colours.quiet)
        baseline = top + tall(len(card.place), found.small) + found.name_step
        self.sheet.type(card.name, left, baseline, colours.now if now else colours.ink)
        baseline += found.after_name
        self._lines(card.how, left, baseline, colours.ink)
        self._lines(card.way, left, baseline + LEADING * found.small * len(card.how), colours.quiet)

    def _lines(self, lines: Sequence[str], left: float, baseline: float, colour: Colour) -> None:
        for line in lines:
            self.sheet.type(plain(line, self.found.small, self.theme.weights.regular), left, baseline, colour)
            baseline += LEADING * self.found.small

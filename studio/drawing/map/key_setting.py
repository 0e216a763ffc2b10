"""Setting the keys of a song: how wide their blocks are, what the cards of their changes say, and where those stand."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import Line, balanced, plain, wrap
from studio.drawing.map.block import Block, Names, name_height, names, outside
from studio.drawing.map.key_map import Change, KeyMap
from studio.drawing.map.now import OVER
from studio.drawing.map.small_print import LEADING, TAIL, print_size, tall
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.timeline.kind import Extent

TEXTURE, TEXTURE_MOST = 2.8, 6.0
"""Units: how tall a texture is at least and at most."""

LEADER, CARD_GAP, INDENT, NARROWEST, WIDEST = 3.6, 2.5, 1.3, 26.0, 56.0
"""Units: the lines from blocks to cards, card beside card, words from a card's edge, how wide a card may be."""

CAPTION_GAP, CARD_AIR, CARD_FOOT, NUMBER_GAP = 1.5, 1.3, 0.9, 0.7
"""Units: from the floor to a caption, from a card's top to its words where a line comes to it, under its words, and
from the floor to the number of a bar."""


@dataclass(frozen=True)
class Card:
    """What is set of one change, and how wide it is in pixels."""

    change: Change
    place: tuple[str, ...]
    name: Line
    how: tuple[str, ...]
    way: tuple[str, ...]
    width: float


class Setting:
    """How the keys are set in a picture of some width. Lengths are pixels, heights of parts units."""

    def __init__(self, content: KeyMap, width: float, theme: Theme) -> None:
        self.content, self.theme = content, theme
        self.u = content.canvas.unit
        self.left, self.room = PADDING * self.u, width - 2 * PADDING * self.u
        self.label = content.canvas.pixels(theme.sizes.label)
        said = [content.note, *content.plan]
        said += [words for change in content.changes for words in (change.words, change.way)]
        self.small = print_size(said, self.room - INDENT * self.u, content.canvas, theme)
        self.widths = tuple((block.end - block.begin) * self.room for block in content.blocks)
        self.names: Names = names(content.blocks, self.widths, 1, content.canvas, theme)
        self.captions = {block: self._wrapped(words, self.room) for block, words in self._captions()}
        self.note = self._wrapped(content.note, self.room) if content.note else ()
        self._set_cards()

    @property
    def line(self) -> float:
        """The blocks, with what is over them and with textures of the least height."""
        return OVER + name_height(self.names, self.content.canvas) + TEXTURE

    @property
    def extent(self) -> Extent:
        """Units: with a caption at least; with a card for each change where there is room."""
        lines = max(map(len, self.captions.values()))
        captioned = PADDING + self.line + CAPTION_GAP + self.tall(lines) + self.foot
        return Extent(captioned, max(captioned, self.carded) + TEXTURE_MOST - TEXTURE)

    @property
    def carded(self) -> float:
        """The least that it takes to show all cards."""
        note = len(self.note) * LEADING * self.small / self.u
        return PADDING + self.line + self.card_rows + note + self.foot

    @property
    def foot(self) -> float:
        """Units under the last baseline."""
        return max(PADDING, TAIL * self.small / self.u)

    def tall(self, lines: int) -> float:
        """Units of so many lines of small print."""
        return tall(lines, self.small) / self.u

    @property
    def card_rows(self) -> float:
        """What the cards take, with the lines that lead to them or the numbers that find them."""
        return self.lead + sum(self.card_heights) + CARD_GAP * (len(self.card_heights) - 1)

    @property
    def lead(self) -> float:
        """From the floor to the cards: lines that lead to them, or bar numbers by which they are found."""
        return LEADER if self.tied else NUMBER_GAP + self.tall(1) + CARD_FOOT + 1.3

    @property
    def name_step(self) -> float:
        """From the last baseline of a card's place to that of its key. Pixels."""
        return CAP * self.label + 0.58 * self.small

    @property
    def after_name(self) -> float:
        """From the baseline of a card's key to that of the small print after it. Pixels."""
        return CAP * self.small + max(0.54 * self.small, 0.35 * self.label)

    def x(self, share: float) -> float:
        return self.left + share * self.room

    def unnamed(self) -> list[Block]:
        """The blocks that have no room for the name of their key."""
        found = outside(self.content.blocks, self.widths, self.content.canvas, self.theme)
        return [block for n, block in enumerate(self.content.blocks) if n in found or not self.names.lines[n]]

    def _captions(self) -> list[tuple[int, str]]:
        """What is said where there are no cards: of the key that sounds, or of all of them."""
        said = {change.block: change.words for change in self.content.changes}
        note = f"; {self.content.note}" if self.content.note else ""
        plans = [f"{plan}{note}" for plan in self.content.plan]
        plan = next((plan for plan in plans if len(self._wrapped(plan, self.room)) == 1), plans[-1])
        blocks = range(-1, len(self.content.blocks))
        return [(block, f"{said[block]}{note}" if block in said else plan) for block in blocks]

    def _wrapped(self, words: str, width: float) -> tuple[str, ...]:
        return balanced(words, self.small, self.theme.weights.regular, width)

    def _set_cards(self) -> None:
        """Cards in one row, each near its change, if all have room there; else in rows of equal cards."""
        count, u, gap = len(self.content.changes), self.u, CARD_GAP * self.u
        cards = self._cards_within(WIDEST * u)
        if sum(card.width for card in cards) + (count - 1) * gap > self.room:
            cards = self._cards_within((self.room - (count - 1) * gap) / count)
        fitting = max(1, int((self.room + gap) // (self._narrowest() + gap)))
        self.tied = count <= fitting
        self.across = count if self.tied else -(-count // -(-count // fitting))
        if not self.tied:
            width = (self.room - (self.across - 1) * gap) / self.across
            cards = [replace(card, width=width) for card in self._cards_within(width)]
        self.cards = cards
        self.card_lefts = self._under_changes() if self.tied else self._in_columns()
        self.card_heights = [
            max(self._card_height(card) for card in cards[first : first + self.across])
            for first in range(0, count, max(self.across, 1))
        ]

    def _narrowest(self) -> float:
        """The least width of a card: what it says has room when every word stands in a line of its own, and the name
        of a key does at the smallest size."""
        weights, least = self.theme.weights, self.content.canvas.pixels(SMALLEST)
        words = [
            (word, self.small, weights.regular)
            for change in self.content.changes
            for said in (change.place, change.how, change.way)
            for word in wrap(said, self.small, weights.regular, 1.0)
        ]
        words += [(change.key, least, weights.strong) for change in self.content.changes]
        return max([NARROWEST * self.u, *(plain(*word).width + INDENT * self.u for word in words)])

    def _cards_within(self, width: float) -> list[Card]:
        """The cards, each as wide as it needs to be and at most `width`."""
        size, weights = self.label, self.theme.weights
        indent, cards = INDENT * self.u, []
        for change in self.content.changes:
            said = [self._wrapped(words, width - indent) for words in (change.place, change.how, change.way)]
            name = plain(change.key, size, weights.strong).fitted(width - indent)
            small = [plain(line, self.small, weights.regular).width for lines in said for line in lines]
            place, how, way = said
            cards.append(Card(change, place, name, how, way, indent + max(name.width, *small)))
        return cards

    def card_air(self) -> float:
        """Units from a card's top to its words."""
        return CARD_AIR if self.tied else 0.0

    def _card_height(self, card: Card) -> float:
        after = len(card.how) + len(card.way)
        under = self.after_name + LEADING * self.small * (after - 1) if after else 0.0
        words = tall(len(card.place), self.small) + self.name_step + under
        return self.card_air() + words / self.u + CARD_FOOT

    def _in_columns(self) -> list[float]:
        return [
            self.left + n % self.across * (card.width + CARD_GAP * self.u)
            for n, card in enumerate(self.cards)
        ]

    def _under_changes(self) -> list[float]:
        """Left edges of cards in one row, each as near to its change as the others let it."""
        gap, free, lefts = CARD_GAP * self.u, self.left, list[float]()
        for card in self.cards:
            lefts.append(max(self.x(self.content.blocks[card.change.block].begin), free))
            free = lefts[-1] + card.width + gap
        limit = self.left + self.room
        for n in reversed(range(len(lefts))):
            lefts[n] = min(lefts[n], limit - self.cards[n].width)
            limit = lefts[n] - gap
        return lefts


@lru_cache(maxsize=32)
def setting(content: KeyMap, width: float, theme: Theme) -> Setting:
    """The setting of a map of keys; kept, as each of its states and marks asks for it."""
    return Setting(content, width, theme)

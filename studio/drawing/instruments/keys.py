"""Drawing a piano's keyboard on a panel, kept dim so that a held key is the brightest thing in it."""

from __future__ import annotations

from dataclasses import dataclass

from PIL import Image

from studio.drawing.frame import CORNER, PADDING, CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

LONG = 23.0
"""Units that a long key is tall."""

SHORT = 0.6
"""Height of a short key in shares of a long one's; its width in shares of a long one's is the same."""

WIDEST = 8.5
"""Units that a long key is wide at most."""

LEGEND, NAMES = 4.75, 4.5
"""Units: which hand is which, and the names of short keys over the keyboard."""

_STEPS = {0: 0, 2: 1, 4: 2, 5: 3, 7: 4, 9: 5, 11: 6}
"""Which long key of the octave a pitch class is."""

_LEAN = {1: -0.10, 3: 0.10, 6: -0.14, 8: 0.0, 10: 0.14}
"""How far a short key stands beside the crack that it covers, in long keys, as on a piano."""


@dataclass(frozen=True)
class HeldKey:
    """A key that is down: MIDI note, the name to write on it, and 1 for the right hand or 2 for the left."""

    midi: int
    name: str
    hand: int = 1


@dataclass(frozen=True)
class Holding:
    """The keys that are down, from low to high."""

    keys: tuple[HeldKey, ...] = ()


@dataclass(frozen=True)
class Keyboard:
    """The keys from `first` to `last` (MIDI notes, a C and a B), played by one hand or by two."""

    canvas: CanvasSize
    first: int
    last: int
    two_hands: bool

    @property
    def long_keys(self) -> int:
        return (self.last - self.first + 1) // 12 * 7


def is_short(midi: int) -> bool:
    """Whether a MIDI note is a short (black) key."""
    return midi % 12 not in _STEPS


def key_middle(content: Keyboard, midi: int) -> float:
    """The middle of a key, in long keys from the left edge of the keyboard."""
    octave, pitch_class = divmod(midi - content.first, 12)
    if pitch_class in _STEPS:
        return octave * 7 + _STEPS[pitch_class] + 0.5
    return octave * 7 + _STEPS[pitch_class - 1] + 1 + _LEAN[pitch_class]


def keyboard_height(content: Keyboard) -> int:
    """Units that the callout asks for."""
    return -int(-(2 * PADDING + (LEGEND if content.two_hands else 0) + NAMES + LONG) // 1)


def draw_keyboard(content: Keyboard, look: Holding, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The keyboard on a panel as wide as it needs, at the left of a picture of `size`."""
    drawing = _Keys(content, size, theme)
    held = {key.midi: key for key in look.keys}
    for short in (False, True):
        for midi in range(content.first, content.last + 1):
            if is_short(midi) == short:
                drawing.key(midi, held.get(midi))
    drawing.legend()
    return drawing.sheet.picture


class _Keys:
    """One keyboard on one sheet. Lengths inside are pixels."""

    def __init__(self, content: Keyboard, size: tuple[int, int], theme: Theme) -> None:
        self.content, self.theme = content, theme
        self.u = u = content.canvas.unit
        self.sheet = Sheet(size)
        room = size[0] - 2 * PADDING * u
        self.wide = min(WIDEST * u, room / content.long_keys)
        self.left = PADDING * u
        panel = (0, 0, 2 * self.left + self.wide * content.long_keys, size[1])
        self.sheet.panel(theme.colours.panel, theme.panel_opacity, CORNER * u, panel)
        self.legend_top = PADDING * u
        self.top = (PADDING + NAMES + (LEGEND if content.two_hands else 0)) * u
        self.tall = size[1] - PADDING * u - self.top

    def key(self, midi: int, held: HeldKey | None) -> None:
        short = is_short(midi)
        middle = self.left + key_middle(self.content, midi) * self.wide
        half = self.wide * (SHORT if short else 1.0) / 2
        bottom = self.top + self.tall * (SHORT if short else 1.0)
        gap = 0.0 if short else 0.18 * self.u
        colours = self.theme.colours
        colour = colours.dark_key if short else colours.light_key
        if held:
            colour = colours.now if held.hand == 1 else colours.next
        if short:  # a border of the panel's colour keeps a lit short key apart from its lit neighbours
            edge = 0.3 * self.u
            self.sheet.rectangle(
                middle - half - edge, self.top, middle + half + edge, bottom + edge, colours.panel
            )
        left, right, round_off = middle - half + gap, middle + half - gap, 0.6 * self.u
        self.sheet.panel(colour, 1.0, round_off, (left, bottom - 3 * round_off, right, bottom))
        self.sheet.rectangle(round(left), self.top, round(right), round(bottom - round_off), colour)
        if held:
            self._mark(held, middle, bottom, short)

    def _mark(self, held: HeldKey, middle: float, bottom: float, short: bool) -> None:
        u, size = self.u, self.content.canvas.pixels(self.theme.sizes.small)
        colours = self.theme.colours
        radius = min(1.7 * u, self.wide * (0.2 if short else 0.27))
        line = plain(held.name, size, self.theme.weights.heavy)
        y = bottom - radius - 1.3 * u
        if held.name and not short:
            self.sheet.type(line, middle, bottom - 1.3 * u, colours.on_accent, "middle")
            y -= CAP * size + 1.2 * u
        elif held.name:
            accent = colours.now if held.hand == 1 else colours.next
            self.sheet.type(line, middle, self.top - 1.2 * u, accent, "middle")
        self._shape(held.hand, middle, y, radius, colours.on_accent)

    def legend(self) -> None:
        """Which hand is which; one hand alone needs no legend."""
        if not self.content.two_hands:
            return
        u, size, colours = self.u, self.content.canvas.pixels(self.theme.sizes.small), self.theme.colours
        x, baseline = self.left, self.legend_top + CAP * size
        for hand, words, colour in ((2, "left hand", colours.next), (1, "right hand", colours.now)):
            self._shape(hand, x + 1.3 * u, baseline - CAP * size / 2, 1.3 * u, colour)
            line = plain(words, size, self.theme.weights.regular)
            self.sheet.type(line, x + 3.8 * u, baseline, colours.ink)
            x += 3.8 * u + line.width + 4 * u

    def _shape(self, hand: int, x: float, y: float, radius: float, colour: Colour) -> None:
        if hand == 1:
            self.sheet.dot(x, y, radius, colour)
        else:
            self.sheet.ring(x, y, radius, radius * 0.42, colour)

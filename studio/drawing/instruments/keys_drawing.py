"""Drawing a piano's keyboard on a panel, kept dim so that a held key is the brightest thing in it."""

from __future__ import annotations

from collections.abc import Iterator

from PIL import Image

from studio.drawing.frame import CORNER, PADDING
from studio.drawing.instruments.keys import HeldKey, Holding, Keyboard, is_short, key_middle, key_width
from studio.drawing.instruments.keys_words import (
    BETWEEN,
    SIGN,
    legend_lines,
    legend_width,
    names_row,
    symbol_size,
    symbols,
    top_row,
)
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

SHORT = 0.6
"""Height of a short key in shares of a long one's; its width in shares of a long one's is the same."""

OUTLINE, DASH, DASH_GAP = 0.8, 1.7, 1.2
"""Units: thickness of the dashed outline of a key that comes next, and its dashes."""


def draw_keyboard(content: Keyboard, look: Holding, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The keyboard on a panel as wide as it needs, at the left of a picture of `size`."""
    drawing = _Keys(content, size, theme)
    held = {key.midi: key for key in look.keys}
    coming = {key.midi for key in look.coming if key.midi not in held}
    for short in (False, True):
        for midi in range(content.first, content.last + 1):
            if is_short(midi) == short:
                drawing.key(midi, held.get(midi), midi in coming)
    drawing.top_row(look)
    return drawing.sheet.picture


class _Keys:
    """One keyboard on one sheet. Lengths inside are pixels."""

    def __init__(self, content: Keyboard, size: tuple[int, int], theme: Theme) -> None:
        self.content, self.theme = content, theme
        self.u = u = content.canvas.unit
        self.small = content.canvas.pixels(theme.sizes.small)
        self.sheet = Sheet(size)
        self.wide = key_width(content, size[0])
        self.left = PADDING * u
        self.right = self.left + self.wide * content.long_keys
        panel = (0, 0, self.right + self.left, size[1])
        self.sheet.panel(theme.colours.panel, theme.panel_opacity, CORNER * u, panel)
        self.row = top_row(content, theme)
        self.top = (PADDING + self.row + names_row(content, theme)) * u
        self.tall = size[1] - PADDING * u - self.top

    def key(self, midi: int, held: HeldKey | None, coming: bool) -> None:
        short = is_short(midi)
        middle = self.left + key_middle(self.content, midi) * self.wide
        half = self.wide * (SHORT if short else 1.0) / 2
        bottom = self.top + self.tall * (SHORT if short else 1.0)
        gap = 0.0 if short else 0.18 * self.u
        colours = self.theme.colours
        colour = colours.dark_key if short else colours.light_key
        if short:  # a border of the panel's colour keeps a lit short key apart from its lit neighbours
            edge = 0.3 * self.u
            self.sheet.rectangle(
                middle - half - edge, self.top, middle + half + edge, bottom + edge, colours.panel
            )
        box = (middle - half + gap, middle + half - gap, bottom)
        if held:
            self._slab(*box, self._accent(held.hand))
            self._mark(held, middle, bottom, short)
        elif coming:
            self._slab(*box, colour)
            self._dashes((box[0], self.top, box[1], bottom))
        else:
            self._slab(*box, colour)

    def _dashes(self, box: tuple[float, float, float, float]) -> None:
        """A dashed line inside the left, the lower and the right edge of a key, finer in a small one."""
        left, top, right, bottom = box
        fine = min(1.0, (right - left) / (5 * OUTLINE * self.u)) * self.u
        line, colour = OUTLINE * fine, self.theme.colours.next
        for start, end in _dashed(bottom - top, fine):
            for x in (left, right - line):
                self.sheet.rectangle(x, bottom - end, x + line, bottom - start, colour)
        for start, end in _dashed((right - left) / 2, fine):
            self.sheet.rectangle(left + start, bottom - line, left + end, bottom, colour)
            self.sheet.rectangle(right - end, bottom - line, right - start, bottom, colour)

    def _accent(self, hand: int) -> Colour:
        return self.theme.colours.now if hand == 1 else self.theme.colours.next

    def _slab(self, left: float, right: float, bottom: float, colour: Colour) -> None:
        round_off = 0.6 * self.u
        self.sheet.panel(colour, 1.0, round_off, (left, bottom - 3 * round_off, right, bottom))
        self.sheet.rectangle(round(left), self.top, round(right), round(bottom - round_off), colour)

    def _mark(self, held: HeldKey, middle: float, bottom: float, short: bool) -> None:
        u, size, colours = self.u, self.small, self.theme.colours
        radius = min(1.7 * u, self.wide * (0.2 if short else 0.27))
        line = plain(held.name, size, self.theme.weights.heavy)
        y = bottom - radius - 1.3 * u
        if held.name and not short:
            self.sheet.type(line, middle, bottom - 1.3 * u, colours.on_accent, "middle")
            y -= CAP * size + 1.2 * u
        elif held.name:
            self.sheet.type(line, middle, self.top - 1.2 * u, self._accent(held.hand), "middle")
        low = self.top + self.tall * SHORT + 0.3 * u
        if (
            not short and y - radius < low
        ):  # it stands between the short keys, where they leave the key to be seen
            left, right = self._between_shorts(held.midi)
            radius = min(radius, 0.42 * (right - left))
            middle, y = (left + right) / 2, min(y, low - 1.2 * u - radius)
        self._shape(held.hand, middle, y, radius, colours.on_accent)

    def _between_shorts(self, midi: int) -> tuple[float, float]:
        """The left and the right edge of what short keys leave of a long one."""
        middle, half = self.left + key_middle(self.content, midi) * self.wide, self.wide / 2
        reach = SHORT * half + 0.3 * self.u
        left, right = middle - half, middle + half
        if midi > self.content.first and is_short(midi - 1):
            left = self.left + key_middle(self.content, midi - 1) * self.wide + reach
        if midi < self.content.last and is_short(midi + 1):
            right = self.left + key_middle(self.content, midi + 1) * self.wide - reach
        return left, right

    def top_row(self, look: Holding) -> None:
        """The chord's name at the left; at the right, or alone, which hand is which and what an outline means."""
        content, u = self.content, self.u
        if not self.row:
            return
        x, baseline = self.left, PADDING * u + CAP * self.small
        if content.chords:
            baseline = PADDING * u + CAP * self.content.canvas.pixels(symbol_size(self.theme)) + 0.4 * u
            for line, at, colour in symbols(content, look, self.theme):
                self.sheet.type(line, self.left + at, baseline, colour)
            x = self.right - legend_width(content, self.theme, self._room())
        if content.legend:
            self._legend(x, baseline)

    def _room(self) -> float:
        return self.right - self.left

    def _legend(self, x: float, baseline: float) -> None:
        u, colours = self.u, self.theme.colours
        middle = baseline - CAP * self.small / 2
        for sign, line in legend_lines(self.content, self.theme, self._room()):
            if sign:
                self._shape(sign, x + 1.3 * u, middle, 1.3 * u, self._accent(sign))
            else:
                box = (x, middle - 1.5 * u, x + 2.6 * u, middle + 1.5 * u)
                self.sheet.panel(colours.light_key, 1.0, 0.2 * u, box)
                self._dashes(box)
            self.sheet.type(line, x + SIGN * u, baseline, colours.ink)
            x += SIGN * u + line.width + BETWEEN * u

    def _shape(self, hand: int, x: float, y: float, radius: float, colour: Colour) -> None:
        if hand == 1:
            self.sheet.dot(x, y, radius, colour)
        else:
            self.sheet.ring(x, y, radius, radius * 0.42, colour)


def _dashed(length: float, unit: float) -> Iterator[tuple[float, float]]:
    """Dashes along a line, the first from its start."""
    at = 0.0
    while at < length:
        yield at, min(at + DASH * unit, length)
        at += (DASH + DASH_GAP) * unit

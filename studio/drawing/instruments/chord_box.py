"""Drawing chord boxes: strings upright, frets level, a dot for each finger, as song books print them."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.frame import CanvasSize
from studio.drawing.instruments.growth import growth, least_symbol
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import SymbolWords, symbol
from studio.drawing.lettering.type import Line, plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

STRING, FRET, DOT = 4.0, 4.7, 1.85
"""Units at the usual least size: string to string, fret to fret, a dot's radius."""

BRACKET, SIGNS, UNDER = 2.5, 3.6, 4.4
"""Units: the bracket, open and silent strings, words under the strings."""

AS_FINGERED, CAPO = 4.2, 0.9
"""Units: what the hand fingers under a capo, and how much higher the signs stand over one than over a nut."""

MARGIN, LABEL_GAP = 2.0, 0.9
"""Units beside the strings, and between a dot on the outer string and the number of its fret."""

LARGEST, TIGHTEST = 1.7, 0.82
"""A box is drawn at most so many times its usual least size, and where height is short not under so many."""


@dataclass(frozen=True)
class ChordBox:
    """One fingering. `frets`: each string's fret, low string first, None for a silent one; `fingers` as in
    `Shape`. `barres`: (fret, first string, last string). `under`: a word under each string. `lowest` is the
    fret in the first row; 1 shows the nut. `fingered` is what the hand plays under a capo."""

    symbol: SymbolWords
    frets: tuple[int | None, ...]
    fingers: tuple[int, ...]
    barres: tuple[tuple[int, int, int], ...]
    lowest: int
    under: tuple[str, ...] = ()
    fingered: str = ""


@dataclass(frozen=True)
class BoxLayout:
    """What all boxes of a callout share: how many frets they show, and which zones they have."""

    canvas: CanvasSize
    strings: int
    rows: int
    left_handed: bool
    capo: bool
    under: bool
    fingered: bool
    fingers: bool


def symbol_size(theme: Theme, factor: float) -> float:
    """Size of a chord symbol at 1080 lines over a box drawn at a factor of its least size."""
    least = least_symbol(theme)
    return max(least, min(theme.sizes.symbol, least * factor))


def box_height(layout: BoxLayout, theme: Theme, factor: float) -> float:
    """Units that a box takes with its symbol and all that stands around it."""
    fixed = BRACKET + (AS_FINGERED if layout.fingered else 0.0) + (UNDER if layout.under else 0.6)
    fixed += CAPO if layout.capo else 0.0
    grid = (SIGNS + layout.rows * FRET) * factor
    return (fixed + grid) * growth(theme) + (CAP + 0.4) * symbol_size(theme, factor) / 8


def box_width(
    layout: BoxLayout, boxes: tuple[ChordBox, ...], theme: Theme, factor: float, numbered: bool
) -> float:
    """Units that a box takes: the strings and their margins, or the widest symbol or row of words.

    `numbered`: whether it has room for the number of a fret.
    """
    margin = MARGIN * factor * growth(theme)
    grid = (layout.strings - 1) * string_step(layout, boxes, theme, factor) + margin
    grid += (label_zone(layout, boxes, theme, factor) if numbered else margin) + 0.8 * growth(theme)
    pixels = layout.canvas.pixels(symbol_size(theme, factor))
    widest = max(symbol(box.symbol, pixels, theme.weights).width for box in boxes) / layout.canvas.unit
    return max(grid, widest + 3.0)


def label_zone(layout: BoxLayout, boxes: tuple[ChordBox, ...], theme: Theme, factor: float) -> float:
    """Units beside the strings in which numbers of frets stand, clear of dots; 0 if no box has one."""
    size = layout.canvas.pixels(theme.sizes.small)
    words = (plain(_fret_label(box), size, theme.weights.strong) for box in boxes if box.lowest > 1)
    widest = max((line.width for line in words), default=0.0)
    return widest / layout.canvas.unit + (LABEL_GAP + DOT * factor) * growth(theme) if widest else 0.0


def _fret_label(box: ChordBox) -> str:
    return f"{box.lowest}fr"


def string_step(layout: BoxLayout, boxes: tuple[ChordBox, ...], theme: Theme, factor: float) -> float:
    """Units from string to string, wide enough for the words under them."""
    size = layout.canvas.pixels(theme.sizes.small)
    words = {word for box in boxes for word in box.under if word}
    widest = max((plain(word, size, theme.weights.regular).width for word in words), default=0.0)
    return max(STRING * factor * growth(theme), widest / layout.canvas.unit + 0.9)


class BoxDrawing:
    """Draws boxes of one layout on one sheet at one size. Lengths inside are pixels."""

    def __init__(
        self, sheet: Sheet, layout: BoxLayout, boxes: tuple[ChordBox, ...], factor: float, theme: Theme
    ) -> None:
        self.sheet, self.layout, self.theme, self.factor = sheet, layout, theme, factor
        unit = layout.canvas.unit
        self.u = unit * growth(theme)
        self.string = string_step(layout, boxes, theme, factor) * unit
        self.fret = FRET * factor * self.u
        self.radius = DOT * factor * self.u
        self.label = label_zone(layout, boxes, theme, factor) * unit
        self.widths = {
            numbered: box_width(layout, boxes, theme, factor, numbered) * unit for numbered in (False, True)
        }

    def draw(self, box: ChordBox, left: float, top: float, numbered: bool, state: str) -> None:
        """One box with its left upper corner there; `state` is "now", "next" or "" for neither."""
        u, layout, colours = self.u, self.layout, self.theme.colours
        colour = colours.now if state == "now" else colours.ink
        digits = colours.on_accent if state == "now" else colours.panel
        self.low = self._low_string(left, numbered)
        middle = (self.x(0) + self.x(layout.strings - 1)) / 2
        self._state(middle, top, state)
        size = layout.canvas.pixels(symbol_size(self.theme, self.factor))
        y = top + BRACKET * u + CAP * size
        words = symbol(box.symbol, size, self.theme.weights)
        self.sheet.type(words, middle, y + 0.4 * u, colours.ink, "middle")
        small = layout.canvas.pixels(self.theme.sizes.small)
        y += 0.4 * size
        if layout.fingered:
            line = plain(f"as {box.fingered}", small, self.theme.weights.regular)
            self.sheet.type(line, middle, y + CAP * small + 0.6 * u, colours.quiet, "middle")
            y += AS_FINGERED * u
        self.over_nut = (SIGNS * self.factor + (CAPO if layout.capo else 0.0)) * u
        self.nut = y + self.over_nut
        self._grid(box)
        self._signs(box)
        self._barres(box, colour)
        self._dots(box, colour, digits)
        self._under(box, small)

    def x(self, string: int) -> float:
        """Where a string runs; the low one is at the left, or at the right for a left-handed player."""
        return self.low + string * self.string * (-1 if self.layout.left_handed else 1)

    def _low_string(self, left: float, numbered: bool) -> float:
        neck, label = (self.layout.strings - 1) * self.string, self.label if numbered else 0.0
        spare = (self.widths[numbered] - neck - label) / 2
        return left + (spare + neck if self.layout.left_handed else label + spare)

    def _state(self, middle: float, top: float, state: str) -> None:
        """A bracket over what sounds, a pointer over what comes next: told apart by shape and by colour."""
        u, colours = self.u, self.theme.colours
        half = (self.layout.strings - 1) * self.string / 2 + self.radius
        if state == "now":
            self.sheet.rectangle(middle - half, top, middle + half, top + 0.8 * u, colours.now)
            for x in (middle - half, middle + half - 0.8 * u):
                self.sheet.rectangle(x, top, x + 0.8 * u, top + 2.2 * u, colours.now)
        elif state == "next":
            points = [(middle - 1.7 * u, top), (middle + 1.7 * u, top), (middle, top + 2.0 * u)]
            self.sheet.polygon(points, colours.next)

    def _grid(self, box: ChordBox) -> None:
        u, colours, layout = self.u, self.theme.colours, self.layout
        thin = 0.26 * u
        first, last = sorted((self.x(0), self.x(layout.strings - 1)))
        bottom = self.nut + layout.rows * self.fret
        for string in range(layout.strings):
            x = self.x(string)
            self.sheet.rectangle(x - thin / 2, self.nut, x + thin / 2, bottom, colours.rule)
        for row in range(layout.rows + 1):
            y = self.nut + row * self.fret
            self.sheet.rectangle(first - thin / 2, y - thin / 2, last + thin / 2, y + thin / 2, colours.rule)
        if box.lowest > 1:
            self._fret_number(box, first, last)
        elif layout.capo:  # rounded and wider than the neck, as a capo is
            edges = (first - 1.6 * u, self.nut - 1.5 * u, last + 1.6 * u, self.nut + 0.1 * u)
            self.sheet.panel(colours.quiet, 1.0, 0.8 * u, edges)
        else:
            self.sheet.rectangle(first - thin / 2, self.nut - 0.8 * u, last + thin / 2, self.nut, colours.ink)

    def _fret_number(self, box: ChordBox, first: float, last: float) -> None:
        size, gap = self.layout.canvas.pixels(self.theme.sizes.small), self.radius + LABEL_GAP * self.u
        line = plain(_fret_label(box), size, self.theme.weights.strong)
        y = self.nut + self.fret / 2 + CAP * size / 2
        if self.layout.left_handed:
            self.sheet.type(line, last + gap, y, self.theme.colours.ink)
        else:
            self.sheet.type(line, first - gap, y, self.theme.colours.ink, "right")

    def _signs(self, box: ChordBox) -> None:
        """A ring over an open string, a cross over one that stays silent."""
        u, colours = self.u, self.theme.colours
        y = self.nut - self.over_nut + (SIGNS * self.factor - 0.8) * u / 2
        radius = 1.05 * self.factor * u
        for string, fret in enumerate(box.frets):
            if fret == 0:
                self.sheet.ring(self.x(string), y, radius, 0.32 * self.factor * u, colours.ink)
            elif fret is None:
                for lean in (-1, 1):
                    self._slanted(self.x(string), y, radius * 0.85, lean, colours.quiet)

    def _slanted(self, x: float, y: float, reach: float, lean: int, colour: Colour) -> None:
        half = 0.17 * self.factor * self.u * lean
        dx, dy = reach, reach * lean
        ends = [
            (x - dx + half, y - dy - abs(half)),
            (x + dx + half, y + dy - abs(half)),
            (x + dx - half, y + dy + abs(half)),
            (x - dx - half, y - dy + abs(half)),
        ]
        self.sheet.polygon(ends, colour)

    def _barres(self, box: ChordBox, colour: Colour) -> None:
        for fret, one, two in box.barres:
            first, last = sorted((self.x(one), self.x(two)))
            y, radius = self._row(box, fret), self.radius
            self.sheet.panel(colour, 1.0, radius, (first - radius, y - radius, last + radius, y + radius))

    def _dots(self, box: ChordBox, colour: Colour, digits: Colour) -> None:
        size = self.layout.canvas.pixels(self.theme.sizes.small * max(1.0, 1.07 * self.factor))
        for string, fret in enumerate(box.frets):
            if not fret:
                continue
            x, y = self.x(string), self._row(box, fret)
            under_barre = any(at == fret and one < string <= two for at, one, two in box.barres)
            if not under_barre:
                self.sheet.dot(x, y, self.radius, colour)
            if self.layout.fingers and box.fingers and box.fingers[string] and not under_barre:
                line: Line = plain(str(box.fingers[string]), size, self.theme.weights.heavy)
                self.sheet.type(line, x, y + CAP * size / 2, digits, "middle")

    def _row(self, box: ChordBox, fret: int) -> float:
        return self.nut + (fret - box.lowest + 0.5) * self.fret

    def _under(self, box: ChordBox, size: float) -> None:
        y = self.nut + self.layout.rows * self.fret + 1.0 * self.u + CAP * size
        for string, word in enumerate(box.under):
            if word:
                line = plain(word, size, self.theme.weights.regular)
                self.sheet.type(line, self.x(string), y, self.theme.colours.ink, "middle")

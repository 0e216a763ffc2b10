"""Drawing a stretch of a neck from the player's view: strings level, the low one at the bottom, as in tablature."""

from __future__ import annotations

from itertools import pairwise

from PIL import Image

from studio.drawing.frame import CORNER, PADDING
from studio.drawing.instruments.growth import growth, least_symbol
from studio.drawing.instruments.neck import (
    END,
    HEADING,
    LARGEST_STRING,
    NAMES,
    NUMBERS,
    OPEN,
    STRING,
    TIGHT,
    Lit,
    Neck,
    NeckDot,
    beside,
    dot_width,
    neck_extent,
    neck_unit,
)
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import SymbolWords, symbol
from studio.drawing.lettering.type import plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

WIDEST_FRET = 17.0
"""Units that a fret is wide at most."""

INLAYS = (3, 5, 7, 9, 12, 15, 17, 19, 21, 24)
"""Frets that a neck marks by an inlay, the twelfth and the twenty-fourth by two. Common practice."""


def draw_neck(content: Neck, look: Lit, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The neck on a panel as wide as it needs, at the left of a picture of `size`."""
    drawing = _Drawing(content, size, theme)
    drawing.board()
    lit = {(dot.string, dot.fret) for dot in look.dots}
    for string, fret in content.visited:
        if (string, fret) not in lit:
            drawing.visited(string, fret)
    for dot in (*(dot for dot in content.still if (dot.string, dot.fret) not in lit), *look.dots):
        drawing.dot(dot)
    if look.chord is not None:
        drawing.heading(look.chord)
    return drawing.sheet.picture


class _Drawing:
    """One neck on one sheet. Lengths inside are pixels."""

    def __init__(self, content: Neck, size: tuple[int, int], theme: Theme) -> None:
        self.content, self.theme = content, theme
        self.u = u = neck_unit(content, theme)
        least = neck_extent(content, theme).least / growth(theme)
        spare = max(size[1] / u - least, 0.0)
        self.string = min(STRING + spare / len(content.strings) * 0.8, LARGEST_STRING) * u
        around = beside(content) * u
        self.across = min(size[0] - around, content.frets * max(WIDEST_FRET * u, dot_width(content, theme)))
        self.wide = self.across + around
        self.sheet = Sheet(size)
        self.sheet.panel(
            theme.colours.panel, theme.panel_opacity, CORNER * u, (0, 0, min(self.wide, size[0]), size[1])
        )
        tall = least * u - 2 * TIGHT * u + len(content.strings) * (self.string - STRING * u)
        self.above = (size[1] - tall) / 2
        self.top = self.above + (HEADING if content.headed else 0.0) * u + self.string / 2
        self.bottom = self.top + (len(content.strings) - 1) * self.string
        self.edges = self._edges(content.frets)

    def _edges(self, frets: int) -> list[float]:
        """Where fret wires stand, from the nut's side: nearer together up the neck, as far as words allow.

        The nth fret cuts a string to 2^(−n/12) of its length: equal temperament.
        """
        start = max(self.content.first, 1) - 1
        lengths = [2 ** (-(start + fret) / 12) - 2 ** (-(start + fret + 1) / 12) for fret in range(frets)]
        true = [length * self.across / sum(lengths) for length in lengths]
        even, least = self.across / frets, dot_width(self.content, self.theme) + 0.5 * self.u
        share = 1.0
        if true[-1] < least and even > true[-1]:
            share = max(0.0, min(1.0, (even - least) / (even - true[-1])))
        widths = [share * one + (1 - share) * even for one in true]
        found = [(beside(self.content) - PADDING - END) * self.u]
        for width in widths:
            found.append(found[-1] + width)
        return found

    def _x(self, x: float) -> float:
        return self.wide - x if self.content.left_handed else x

    def _y(self, string: int) -> float:
        return self.bottom - string * self.string

    def _middle(self, fret: int) -> float:
        """The middle of a fret's field, or of the zone of open strings for fret 0."""
        if fret == 0:
            return self._x(self.edges[0] - (OPEN + 0.6) / 2 * self.u)
        place = fret - max(self.content.first, 1)
        return self._x((self.edges[place] + self.edges[place + 1]) / 2)

    def board(self) -> None:
        u, colours, content = self.u, self.theme.colours, self.content
        over, under = self.top - self.string / 2, self.bottom + self.string / 2
        first, last = sorted((self._x(self.edges[0]), self._x(self.edges[-1])))
        self._inlays()
        for edge in self.edges[1:]:
            x = self._x(edge)
            self.sheet.rectangle(x - 0.14 * u, over, x + 0.14 * u, under, colours.rule)
        self._end(over, under)
        for string, name in enumerate(content.strings):
            y, thick = self._y(string), (0.34 - 0.03 * min(string, 5)) * u
            self.sheet.rectangle(first, y - thick / 2, last, y + thick / 2, colours.quiet)
            self._name(name, y)
        self._numbers(under)
        if content.caption:
            size = content.canvas.pixels(self.theme.sizes.small)
            line = plain(content.caption, size, self.theme.weights.regular)
            baseline = under + (NUMBERS + 0.6) * u + CAP * size
            self.sheet.type(line.fitted(self.wide - 2 * PADDING * u), PADDING * u, baseline, colours.quiet)

    def _end(self, over: float, under: float) -> None:
        """The nut as a bar of chalk, a capo as a rounded one that stands over the neck, or a plain fret."""
        u, colours, content = self.u, self.theme.colours, self.content
        x = self._x(self.edges[0])
        if content.first > 0:
            self.sheet.rectangle(x - 0.14 * u, over, x + 0.14 * u, under, colours.rule)
        elif content.capo:
            box = (x - 0.9 * u, over - 0.9 * u, x + 0.9 * u, under + 0.9 * u)
            self.sheet.panel(colours.quiet, 1.0, 0.9 * u, box)
        else:
            self.sheet.rectangle(x - 0.45 * u, over, x + 0.45 * u, under, colours.ink)

    def _inlays(self) -> None:
        count = len(self.content.strings)
        middle = (self.top + self.bottom) / 2
        apart = self.string * (1.0 if count % 2 == 0 else 1.5)  # between strings, whatever their number
        for inlay in INLAYS:
            fret = inlay - self.content.capo
            if max(self.content.first, 1) <= fret <= self.content.last:
                away = apart if inlay % 12 == 0 else 0.0
                for y in {middle - away, middle + away}:
                    self.sheet.dot(self._middle(fret), y, 0.9 * self.u, self.theme.colours.rule)

    def _name(self, name: str, y: float) -> None:
        size = self.content.canvas.pixels(self.theme.sizes.small)
        line = plain(name, size, self.theme.weights.regular)
        x = self._x((PADDING + NAMES / 2 - 0.4) * self.u)
        self.sheet.type(line, x, y + CAP * size / 2, self.theme.colours.quiet, "middle")

    def _numbers(self, under: float) -> None:
        size = self.content.canvas.pixels(self.theme.sizes.small)
        start = max(self.content.first, 1)
        narrow = min(two - one for one, two in pairwise(self.edges))
        every = narrow >= 6.5 * self.u
        for fret in range(start, self.content.last + 1):
            if every or fret in INLAYS or fret == start:
                line = plain(str(fret), size, self.theme.weights.regular)
                baseline = under + 0.9 * self.u + CAP * size
                self.sheet.type(line, self._middle(fret), baseline, self.theme.colours.quiet, "middle")

    def visited(self, string: int, fret: int) -> None:
        """A place that the line comes by at another time."""
        self.sheet.dot(self._middle(fret), self._y(string), 0.75 * self.u, self.theme.colours.quiet)

    def dot(self, dot: NeckDot) -> None:
        """What sounds is full, what comes next or only belongs to the scale is hollow; the scale's root is square.

        Shape tells them apart as well as colour.
        """
        u, colours = self.u, self.theme.colours
        x, y = self._middle(dot.fret), self._y(dot.string)
        size = self.content.canvas.pixels(self.theme.sizes.small)
        line = plain(dot.label, size, self.theme.weights.heavy)
        tall = min(0.48 * self.string, 2.5 * u)
        half = max(tall, line.width / 2 + 0.65 * u)
        edge = {"now": colours.now, "next": colours.next}.get(dot.role, colours.ink)
        self._shape(x, y, half, tall, edge, dot.root)
        if dot.role != "now":
            self._shape(x, y, half - 0.4 * u, tall - 0.4 * u, colours.panel, dot.root)
        ink = colours.on_accent if dot.role == "now" else edge
        self.sheet.type(line, x, y + CAP * size / 2, ink, "middle")

    def _shape(self, x: float, y: float, half: float, tall: float, colour: Colour, square: bool) -> None:
        """A round dot, a pill where words need room, or a square with its corners taken off."""
        if not square and half <= tall + 0.5:
            self.sheet.dot(x, y, tall, colour)
        else:
            corner = 0.5 * self.u if square else tall
            self.sheet.panel(colour, 1.0, corner, (x - half, y - tall, x + half, y + tall))

    def heading(self, chord: SymbolWords) -> None:
        size = self.content.canvas.pixels(max(least_symbol(self.theme), self.theme.sizes.title))
        line = symbol(chord, size, self.theme.weights)
        baseline = self.above + CAP * size + 0.8 * self.u
        self.sheet.type(line, (PADDING + 0.5) * self.u, baseline, self.theme.colours.now)

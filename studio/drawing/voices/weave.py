"""Drawing voices from chord to chord: names at their heights, and a line for each voice whose kind is its shape.

A common tone is a level double line, a half step a strong line with ½ on it, a whole step a plain line, a leap a
dashed one. What sounds now has a bracket over it; the cool accent is for half steps, which pull to what comes next.
"""

from __future__ import annotations

from math import hypot

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import symbol
from studio.drawing.lettering.type import plain
from studio.drawing.paint import Point, Sheet
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.drawing.voices.setting import (
    BRACKET,
    GAP,
    LEAST,
    MOST,
    MOTION,
    OVER_WORDS,
    UNDER_SYMBOL,
    WIDEST,
    leading,
    name_size,
    setting,
    small_lines,
    spread,
    tall,
)
from studio.drawing.voices.slanted import Room, band, outside
from studio.drawing.voices.voices import Column, Led, Voices, Way, heights, page_of, spelled, ways_between

HALF = 1.45
"""Size of the sign ½, in sizes of the smallest type: its figures are small for their size."""


NEAR = 4.0
"""Units between two signs under which they stand beside one another."""


class Weave:
    """Draws one page of voices on one sheet. Lengths inside are pixels."""

    def __init__(self, sheet: Sheet, content: Voices, look: Led, theme: Theme) -> None:
        self.sheet, self.content, self.theme, self.look = sheet, content, theme, look
        self.u = u = content.canvas.unit
        self.found = setting(content, sheet.width, theme)
        first, last = content.pages[page_of(content, look)]
        self.columns = content.columns[first : last + 1]
        self.now = None if look.now is None else look.now - first
        self.leads = None if look.alone else self.now  # from which column its voices are heard to go on
        self.words = self.found.words[look.now] if look.now is not None and not look.alone else ()
        self.share = self._share()
        self.name = name_size(self.share, content, theme)
        self.across = min((sheet.width - 2 * PADDING * u) / len(self.columns), WIDEST * u)
        spare = sheet.height / u - tall(self.found, content, theme, self.share)
        self.top = (PADDING + spare / 2) * u
        self.symbol_line = self.top + BRACKET * u + CAP * self.found.symbol
        self.lowest = (
            self.symbol_line + UNDER_SYMBOL * u + CAP * self.name / 2 + self.found.voices * self.share * u
        )
        self._heights = {midi: at * spread(theme) for midi, at in heights(self.columns).items()}
        self._lift = (self.found.voices - max(self._heights.values())) / 2
        self._halves = [
            (number, way, self._sign(number, way))
            for number, way in ways_between(self.columns)
            if abs(way.semitones) == 1
        ]

    def _share(self) -> float:
        """How tall the voices are beside what they want to be, so that the whole fills the height."""
        low, high = LEAST, MOST
        for _ in range(8):
            middle = (low + high) / 2
            if tall(self.found, self.content, self.theme, middle) * self.u <= self.sheet.height:
                low = middle
            else:
                high = middle
        return low

    def draw(self) -> None:
        for number, way in ways_between(self.columns):
            self._way(number, way)
        for _, _, sign in self._halves:
            self._half(sign)
        for number, column in enumerate(self.columns):
            self._column(number, column)
        for number, column in enumerate(self.columns[:-1]):
            if column.motion:
                self._motion(number, column)
        self._say()

    def x(self, column: int) -> float:
        """The middle of a column."""
        left = (self.sheet.width - self.across * len(self.columns)) / 2
        return left + self.across * (column + 0.5)

    def y(self, midi: int) -> float:
        """The middle of a note's name."""
        return self.lowest - (self._heights[midi] + self._lift) * self.share * self.u

    def _column(self, number: int, column: Column) -> None:
        colours, x = self.theme.colours, self.x(number)
        ink = colours.ink
        if number == self.now:
            ink = colours.now
            self._bracket(x)
        elif self.leads is not None and number == self.leads + 1:
            ink = colours.next
            self._corner(x)
        line = symbol(column.symbol, self.found.symbol, self.theme.weights)
        self.sheet.type(line, x, self.symbol_line, ink, "middle")
        for note in column.notes:
            name = plain(note.name, self.name, self.theme.weights.strong)
            ink = colours.now if number == self.now else colours.ink
            self.sheet.type(name, x, self.y(note.midi) + CAP * self.name / 2, ink, "middle")

    def _bracket(self, x: float) -> None:
        u, half, edge = self.u, self.across / 2 - 0.9 * self.u, 0.7 * self.u
        y = self.top + edge / 2
        drop = y + 1.6 * u
        points = [(x - half, drop), (x - half, y), (x + half, y), (x + half, drop)]
        self.sheet.stroke(points, edge, self.theme.colours.now)

    def _corner(self, x: float) -> None:
        u = self.u
        left, y = x - self.across / 2 + 0.9 * u, self.top + 0.35 * u
        self.sheet.stroke(
            [(left, y + 1.8 * u), (left, y), (left + 2.8 * u, y)], 0.4 * u, self.theme.colours.next
        )

    def _ends(self, number: int, way: Way) -> tuple[Point, Point]:
        """Where a way leaves a name and where it reaches the next."""
        widths = [
            plain(spelled(self.columns[number + n], midi), self.name, self.theme.weights.strong).width / 2
            for n, midi in ((0, way.start), (1, way.end))
        ]
        start = self.x(number) + widths[0] + GAP * self.u
        end = self.x(number + 1) - widths[1] - GAP * self.u
        return (start, self.y(way.start)), (end, self.y(way.end))

    def _way(self, number: int, way: Way) -> None:
        u, colours = self.u, self.theme.colours
        one, two = self._ends(number, way)
        strong = number == self.leads
        size = abs(way.semitones)
        if size == 0:
            ink = colours.ink if strong or self.now is None else colours.quiet
            for lift in (-0.5, 0.5):
                y = one[1] + lift * u
                self._cut(number, (one[0], y), (two[0], y), 0.34 * u, ink)
        elif size == 1:
            self._cut(number, one, two, 0.5 * u, colours.next)
        elif size == 2:
            ink = colours.ink if strong or self.now is None else colours.quiet
            self._cut(number, one, two, 0.3 * u, ink)
        else:
            self._dashed(number, one, two, 0.25 * u, colours.ink if strong else colours.quiet)

    def _cut(self, number: int, one: Point, two: Point, thickness: float, colour: Colour) -> None:
        """A line that leaves out where signs of half steps stand, its own and those of its neighbours."""
        for start, end in outside(one, two, [self._room(sign) for n, _, sign in self._halves if n == number]):
            self._line(start, end, thickness, colour)

    def _sign(self, number: int, way: Way) -> Point:
        """The middle of the sign of a half step on its line; on neighbouring lines they stand beside one another."""
        one, two = self._ends(number, way)
        middles = {
            w: self.y(w.start) + self.y(w.end) for w in self.columns[number].ways if abs(w.semitones) == 1
        }
        crowded = [w for w in middles if abs(middles[w] - middles[way]) < 2 * NEAR * self.u]
        share = (
            0.5
            if len(crowded) == 1
            else (0.34, 0.66)[sorted(middles, key=middles.__getitem__).index(way) % 2]
        )
        return one[0] + (two[0] - one[0]) * share, one[1] + (two[1] - one[1]) * share

    @property
    def _half_size(self) -> float:
        return self.content.canvas.pixels(SMALLEST) * HALF

    def _room(self, sign: Point) -> Room:
        """What a sign of a half step keeps free: left, top, right, bottom."""
        width = plain("½", self._half_size, self.theme.weights.strong).width / 2 + 0.4 * self.u
        tall = CAP * self._half_size / 2 + 0.4 * self.u
        return sign[0] - width, sign[1] - tall, sign[0] + width, sign[1] + tall

    def _half(self, sign: Point) -> None:
        mark = plain("½", self._half_size, self.theme.weights.strong)
        self.sheet.type(mark, sign[0], sign[1] + CAP * self._half_size / 2, self.theme.colours.next, "middle")

    def _line(self, one: Point, two: Point, thickness: float, colour: Colour) -> None:
        self.sheet.polygon(band(one, two, thickness), colour)

    def _dashed(self, number: int, one: Point, two: Point, thickness: float, colour: Colour) -> None:
        long = hypot(two[0] - one[0], two[1] - one[1])
        count = max(3, round(long / (2.4 * self.u)))
        for dash in range(count):
            start, end = dash / (count - 0.4), (dash + 0.6) / (count - 0.4)
            ends = [(one[0] + (two[0] - one[0]) * at, one[1] + (two[1] - one[1]) * at) for at in (start, end)]
            self._cut(number, ends[0], ends[1], thickness, colour)

    def _motion(self, number: int, column: Column) -> None:
        """Two arrows, the upper voice's first, and the word for their motion where it has room."""
        u, colour = self.u, self.theme.colours.ink if number == self.leads else self.theme.colours.quiet
        (word,) = small_lines((column.motion,), self.content, self.theme)
        middle = (self.x(number) + self.x(number + 1)) / 2
        y = self.lowest + (CAP * self.name / 2) + (MOTION / 2 + 0.5) * u
        told = word.width + 9 * u < self.across
        left = middle - (word.width * told + (7.4 if told else 6.0) * u) / 2
        up = column.ways[-1].semitones > 0
        for place, rises in enumerate((up, up != (column.motion == "contrary"))):
            self._arrow(left + place * 3.4 * u, y, rises, colour)
        if told:
            self.sheet.type(word, left + 7.4 * u, y + CAP * word.size / 2, colour)

    def _arrow(self, left: float, y: float, rises: bool, colour: Colour) -> None:
        """An arrow that slants up or down, with a head."""
        u, slant = self.u, -1 if rises else 1
        tip = (left + 2.6 * u, y + slant * 1.1 * u)
        self._line(
            (left, y - slant * 1.1 * u), (tip[0] - 0.5 * u, tip[1] - slant * 0.42 * u), 0.36 * u, colour
        )
        back = (tip[0] - 1.5 * u, tip[1] - slant * 0.1 * u)
        side = (tip[0] - 0.5 * u, tip[1] - slant * 1.4 * u)
        self.sheet.polygon([tip, back, side], colour)

    def _say(self) -> None:
        u = self.u
        baseline = self.lowest + CAP * self.name / 2 + (MOTION * self.found.motion + OVER_WORDS) * u
        for line in small_lines(self.words, self.content, self.theme):
            self.sheet.type(line, PADDING * u, baseline + CAP * line.size, self.theme.colours.quiet)
            baseline += leading(self.content, self.theme)

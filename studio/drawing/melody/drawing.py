"""Drawing a tune as a line over its chords: a thin line that steps, with what each note is on it.

Chord tones are filled labels, other tones hollow ones. The tone that sounds has a thick line.
"""

from __future__ import annotations

import math
from itertools import pairwise

from PIL import Image

from studio.drawing.frame import PADDING, panelled
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain
from studio.drawing.melody.heights import (
    DOTS,
    ROW_GAP,
    STEP,
    TICK_ZONE,
    TIGHT,
    UNDER_SYMBOL,
    key_height,
    row_heights,
    rows_on_a_page,
)
from studio.drawing.melody.hollow import hollow_pill
from studio.drawing.melody.line import Singing, SungLine, SungRow, SungTone
from studio.drawing.melody.placing import (
    LEAD,
    Placed,
    chords_of,
    inset,
    label_height,
    pixels_in_a_quarter,
    placed,
    symbol_size,
)
from studio.drawing.melody.small_print import LEADING, OVER_PRINT, print_height, printed
from studio.drawing.paging import page_dots
from studio.drawing.paint import Sheet
from studio.drawing.pointer import POINTER_TALL, pointer
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme
from studio.timeline.kind import Leg, Mark

LINE, THICK, RISER, EDGE, THICK_EDGE = 0.4, 0.95, 0.22, 0.32, 0.6
"""Units of thickness: the line, where it sounds; its risers; the edge of a hollow label, where it sounds."""


def draw_line(line: SungLine, look: Singing, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The page of the row that sounds, on a panel."""
    sheet = panelled(size, line.canvas, theme)
    frame = _Frame(line, size, theme)
    page = frame.page(look.row)
    for number in page:
        drawn = _Row(sheet, line, number, frame, theme)
        drawn.draw(look.now if number == look.row else None, with_key=number == page.start)
    page_dots(sheet, frame.pages, look.row // frame.count, line.canvas, theme)
    return sheet.picture


def tick(line: SungLine, size: tuple[int, int], theme: Theme) -> Mark:
    """The tick that passes over each row as it sounds."""
    frame, u = _Frame(line, size, theme), line.canvas.unit
    legs = []
    for number, row in enumerate(line.rows):
        y = frame.top(number) + POINTER_TALL / 2 * u
        legs.append(Leg(row.start, row.end, (frame.x(row, row.start), y), (frame.x(row, row.end), y)))
    return pointer(u, legs)


class _Frame:
    """Where the rows of a line stand in a picture of some size. Lengths are pixels."""

    def __init__(self, line: SungLine, size: tuple[int, int], theme: Theme) -> None:
        self.width, height = size
        u = line.canvas.unit
        self.rows, self.count = line.rows, rows_on_a_page(line, height, theme)
        self.pages = -(-len(line.rows) // self.count)
        height -= round(DOTS * u) if self.pages > 1 else 0
        self.gap, self.inset = ROW_GAP * u, inset(line)
        self.left = PADDING * u + self.inset
        self.quarter = pixels_in_a_quarter(line, self.width)
        least, wanted = (units * u for units in row_heights(line, theme))
        room = (height - 2 * TIGHT * u + self.gap) / self.count - self.gap
        self.row = max(least, min(room, wanted * 1.35))
        self.first = (height - self.count * (self.row + self.gap) + self.gap) / 2

    def page(self, row: int) -> range:
        """The rows that are seen together with a row."""
        start = row // self.count * self.count
        return range(start, min(start + self.count, len(self.rows)))

    def top(self, row: int) -> float:
        return self.first + row % self.count * (self.row + self.gap)

    def x(self, row: SungRow, quarters: object) -> float:
        """Where what sounds at a moment stands in its row."""
        return self.left + float(quarters - row.start) * self.quarter  # type: ignore[operator]

    def bar_line(self, row: SungRow, quarters: object) -> float:
        """Where a bar line stands: before what sounds there, or at the end of the row."""
        return self.x(row, quarters) - (0.0 if quarters == row.end else self.inset)


class _Row:
    """One row on a sheet. Lengths are pixels."""

    def __init__(self, sheet: Sheet, line: SungLine, number: int, frame: _Frame, theme: Theme) -> None:
        self.sheet, self.line, self.frame, self.theme = sheet, line, frame, theme
        self.row, self.u = line.rows[number], line.canvas.unit
        u, self.tall = self.u, label_height(line)
        self.top = frame.top(number) + TICK_ZONE * u
        self.symbols = self.top + key_height(line, theme) + CAP * symbol_size(line, theme)
        self.highest = self.symbols + UNDER_SYMBOL * u + self.tall / 2
        self.bottom = frame.top(number) + frame.row - print_height(line)
        room = self.bottom - self.tall / 2 - self.highest
        self.step = min(room / line.reach, 2 * STEP * u) if line.reach else 0.0
        self.lowest = (self.highest + self.bottom - self.tall / 2 + line.reach * self.step) / 2
        self.tones = placed(line, self.row, frame.width, theme) or ()

    def draw(self, now: int | None, with_key: bool) -> None:
        self._keys(with_key)
        self._bar_lines()
        self._chords(now)
        for one, after in pairwise((*self.tones, None)):
            assert one is not None
            self._level(one, after, one.number == now)
            if after is not None:
                self._riser(one, after)
        for one in self.tones:
            self._label(one, one.number == now)
        self._names(now)

    def y(self, tone: SungTone) -> float:
        """The height at which a tone stands."""
        return self.lowest - float(tone.height - self.line.lowest) * self.step

    def _keys(self, from_the_start: bool) -> None:
        """The key in which labels count, over where it begins and at the start of each page."""
        size, regular = self.line.canvas.pixels(self.theme.sizes.small), self.theme.weights.regular
        free = 0.0
        held = [(at, words) for at, words in self.line.keys if at <= self.row.start][-1:]
        begun = [(at, words) for at, words in self.line.keys if self.row.start < at < self.row.end]
        shown = [one for one in held if from_the_start or one[0] == self.row.start]
        for at, words in [*shown, *begun]:
            set_ = plain(words, size, regular)
            x = self.frame.bar_line(self.row, max(at, self.row.start)) + LEAD * self.u
            x = max(free, min(x, self.frame.width - PADDING * self.u - set_.width))
            self.sheet.type(set_, x, self.top + CAP * size, self.theme.colours.quiet)
            free = x + set_.width + 2 * self.u

    def _bar_lines(self) -> None:
        thin = 0.25 * self.u
        top = self.symbols - CAP * symbol_size(self.line, self.theme)
        for at in self.row.lines:
            x = self.frame.bar_line(self.row, at)
            self.sheet.rectangle(x - thin / 2, top, x + thin / 2, self.bottom, self.theme.colours.rule)

    def _chords(self, now: int | None) -> None:
        sounding = self.line.tones[now] if now is not None else None
        for chord, words, _ in chords_of(self.line, self.row, self.frame.width, self.theme):
            start = max(chord.start, self.row.start)
            held = sounding is not None and chord.start <= sounding.start < chord.end
            colour = self.theme.colours.ink if held else self.theme.colours.quiet
            x = self.frame.bar_line(self.row, start) + 1.5 * LEAD * self.u
            self.sheet.type(words, x, self.symbols, colour)

    def _riser(self, one: Placed, after: Placed) -> None:
        """The line up or down to the next tone, from level to label."""
        tone, following = self.line.tones[one.number], self.line.tones[after.number]
        here, there = self.y(tone), self.y(following)
        half = self._half(after)
        if following.joined and abs(here - there) > half:
            end = there + (half if here > there else -half)
            points = [(after.left, here), (after.left, end)]
            self.sheet.stroke(points, RISER * self.u, self.theme.colours.quiet)

    def _level(self, one: Placed, after: Placed | None, now: bool) -> None:
        """A tone's line, from its label to its end, or to the label that it would run into."""
        y, colours = self.y(self.line.tones[one.number]), self.theme.colours
        thick = (THICK if now else LINE) * self.u
        right = min(one.right, self.frame.bar_line(self.row, self.row.end))
        if after is not None:
            right = min(right, self._edge(after, y))
        if right > one.label_right:
            colour = colours.now if now else colours.ink
            self.sheet.rectangle(one.label_right, y - thick / 2, right, y + thick / 2, colour)

    def _edge(self, one: Placed, y: float) -> float:
        """Where a level line at a height meets the left edge of a tone's mark; its start where it passes by."""
        half, off = self._half(one), abs(self.y(self.line.tones[one.number]) - y)
        return one.label_left + half - math.sqrt(half * half - off * off) if off < half else one.left

    def _half(self, one: Placed) -> float:
        """Half of how tall the mark of a tone is."""
        bare = not one.line.pieces and self.line.tones[one.number].shape == "no chord"
        return one.label_width / 2 if bare else self.tall / 2

    def _label(self, one: Placed, now: bool) -> None:
        tone, colours = self.line.tones[one.number], self.theme.colours
        y, lit, half = self.y(tone), colours.now if now else colours.ink, self.tall / 2
        box = (one.label_left, y - half, one.label_right, y + half)
        ink: Colour = lit
        if tone.shape == "chord tone":
            self.sheet.panel(lit, 1.0, half, box)
            ink = colours.on_accent if now else colours.panel
        elif tone.shape == "other tone":
            hollow_pill(self.sheet, box, (THICK_EDGE if now else EDGE) * self.u, lit)
        elif not one.line.pieces:
            self.sheet.dot(one.middle, y, one.label_width / 2 * 0.7, lit)
        # Signs stand closer to their left than digits.
        signed = 0.3 * self.u if tone.label[:1] in ("♭", "♯") else 0.0
        self.sheet.type(one.line, one.middle + signed, y + one.line.cap / 2, ink, "middle")

    def _names(self, now: int | None) -> None:
        """What the tones do, each under its note."""
        size = self.line.canvas.pixels(self.line.print_size)
        first = self.bottom + OVER_PRINT * self.u + CAP * size
        for one in printed(self.line, self.row, self.frame.width, self.theme):
            colour = self.theme.colours.now if one.number == now else self.theme.colours.quiet
            self.sheet.type(one.words, one.left, first + one.row * LEADING * size, colour)

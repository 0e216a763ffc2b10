"""A loop painted on its panel: the words above, the chords between repeat signs, the plain form below."""

from __future__ import annotations

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain, side
from studio.drawing.loop.arrangement import BRACKET, LEADING, ROW, UNDER, Arrangement
from studio.drawing.paint import Sheet


def paint(sheet: Sheet, arrangement: Arrangement) -> None:
    """Paint all of a loop, in the middle of the sheet's height."""
    _Painting(sheet, arrangement).paint()


class _Painting:
    def __init__(self, sheet: Sheet, arrangement: Arrangement) -> None:
        self.sheet, self.of = sheet, arrangement
        self.u, self.colours = arrangement.u, arrangement.theme.colours
        self.left, self.right = PADDING * self.u, sheet.width - PADDING * self.u

    def paint(self) -> None:
        found = self.of
        top = (self.sheet.height - found.tall) / 2
        top = self._head(top) + found.block
        for row in range(found.rows):
            self._row(row, top)
            top += found.row_tall + found.bracket_tall + ROW * self.u * found.gap
        self._foot(top - ROW * self.u * found.gap + found.block)

    def _head(self, top: float) -> float:
        """The words above; returns where they end. A title that reads from the right turns the line round."""
        size, weights = self.of.word_size, self.of.theme.weights
        base = top + CAP * size
        from_right = side(self.of.content.title) == "right"
        begin, end = (self.right, self.left) if from_right else (self.left, self.right)
        starts, ends = ("right", "left") if from_right else ("left", "right")
        for title, key, often in self.of.head:
            line = plain(title, size, weights.strong)
            self.sheet.type(line, begin, base, self.colours.ink, starts)
            after = line.width + 1.5 * self.u if title else 0.0
            at = begin + (-after if from_right else after)
            self.sheet.type(plain(key, size, weights.regular), at, base, self.colours.quiet, starts)
            self.sheet.type(plain(often, size, weights.regular), end, base, self.colours.quiet, ends)
            base += LEADING * size
        return base - LEADING * size

    def _row(self, row: int, top: float) -> None:
        found = self.of
        above = top + CAP * found.numeral_size
        below = above + UNDER * self.u * found.gap + CAP * found.symbol_size
        self._repeats(row, top - 0.5 * self.u, below + 0.5 * self.u)
        if found.content.parts:
            self._bar_lines(row, top - 0.5 * self.u, below + 0.5 * self.u)
        for number, (step, pair) in enumerate(zip(found.content.steps, found.pairs, strict=True)):
            at, column = found.place(number)
            if at != row:
                continue
            x = found.x(column)
            ink = self.colours.ink if step.symbol.root else self.colours.quiet
            self.sheet.type(pair[0], x, above, self.colours.next if step.differs else ink)
            self.sheet.type(pair[1], x, below, self.colours.quiet)
            if step.differs:
                width = found.widths[number]
                self._bracket(x - 0.4 * self.u, x + width + 0.4 * self.u, below + found.bracket_tall)

    def _bar_lines(self, row: int, top: float, bottom: float) -> None:
        """A line before each bar, and after the last of a row; the repeat signs stand for theirs."""
        found, u = self.of, self.u
        bars = min(found.across, found.content.columns - row * found.across) // found.content.parts
        for bar in range(bars + 1):
            x = self.left + found.inset + bar * found.content.parts * found.pitch
            self.sheet.rectangle(x - 0.125 * u, top, x + 0.125 * u, bottom, self.colours.rule)

    def _bracket(self, left: float, right: float, foot: float, tick: float = BRACKET / 2) -> None:
        """A bracket that opens upwards: what stands on it is not as the plain form has it."""
        thick, tall = 0.5 * self.u, tick * self.u * self.of.gap
        half = thick / 2
        points = [
            (left + half, foot - tall),
            (left + half, foot - half),
            (right - half, foot - half),
            (right - half, foot - tall),
        ]
        self.sheet.stroke(points, thick, self.colours.next)

    def _foot(self, top: float) -> None:
        """The plain form, with a small bracket before it where one above is explained by it."""
        size, indent = self.of.word_size, self.of.foot_indent
        base = top + CAP * size
        if self.of.foot and indent:
            self._bracket(
                self.left, self.left + size * 0.75, base, tick=CAP * size * 0.6 / self.u / self.of.gap
            )
        for words in self.of.foot:
            line = plain(words, size, self.of.theme.weights.regular)
            self.sheet.type(line, self.left + indent, base, self.colours.quiet)
            base += LEADING * size

    def _repeats(self, row: int, top: float, bottom: float) -> None:
        """The repeat signs of written music: where the loop starts, and where it goes back."""
        if not self.of.inset:
            return
        u, colour = self.u, self.colours.rule
        for at_end in (False, True):
            if row != (self.of.rows - 1 if at_end else 0):
                continue
            edge, inward = (self.right, -1) if at_end else (self.left, 1)
            for near, far in ((0.0, 0.7), (1.2, 1.45)):
                left, right = sorted((edge + inward * near * u, edge + inward * far * u))
                self.sheet.rectangle(left, top, right, bottom, colour)
            for lift in (-1.2, 1.2):
                self.sheet.dot(edge + inward * 2.5 * u, (top + bottom) / 2 + lift * u, 0.5 * u, colour)

"""How grooves are set in a panel: where bars, beats and lines stand, and how large strokes are."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from studio.drawing.frame import PADDING
from studio.drawing.grid.grid import Grid, Pattern
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import Line, balanced, plain
from studio.drawing.themes.theme import SMALLEST, Theme

TITLE, POINTER, UNDER_COUNT, ROW, OVER_WORDS, LEADING, BETWEEN = 3.2, 3.4, 4.3, 5.4, 3.4, 4.4, 5.0
"""Units: the title over the pointer's way, that way, the count over the first line, line to line, words under the
last, line of words to line, one groove over another or beside it."""

NAMES, STEP = 1.0, 1.28
"""Least distance of lines and of words, in sizes of the small print, for a theme that has it large."""

LEAST, MOST = 0.68, 1.3
"""How much nearer together or further apart than they want to be the lines may stand."""

INSET = 3.4
"""Units from a bar line to the first beat."""

TAIL = 3.6
"""Units after the last bar for the sign that the pattern goes round again."""

ACCENT = 2.0
"""Units more over a line on which there are accents."""

NEAREST = 2.8
"""Units between two strokes of one line under which they are a blur."""

LABEL = 2.2
"""Units between a voice's name and the first bar line."""

MOST_LINES, COLUMN_LINES, COLUMN = 2, 4, 90.0
"""Lines of words under the grid: more of them in a column, which is no wider than so many units."""


@dataclass(frozen=True)
class Block:
    """Where one pattern stands: pixels of its first and last bar line, and of its top."""

    left: float
    right: float
    top: float


class Setting:
    """The setting of a grid in a panel of some size; with no height, as it wants to be. Lengths are pixels."""

    def __init__(self, content: Grid, width: float, height: float | None, theme: Theme) -> None:
        self.content, self.theme, self.width = content, theme, width
        self.u = u = content.canvas.unit
        self.small = content.canvas.pixels(theme.sizes.small)
        self.title = content.canvas.pixels(theme.sizes.label)
        labels = [plain(voice, self.small, theme.weights.regular).width for voice in content.voices]
        self.label = max(labels, default=0.0) + LABEL * u
        self.words = self._words(content.said, width - 2 * PADDING * u)
        self.own_line = not all(self._fits_beside(pattern) for pattern in content.patterns)
        self.share = 1.0 if height is None else self._share(height)
        spare = 0.0 if height is None else max(0.0, height - self.tall(self.share))
        self.top = PADDING * u + spare / 2

    @property
    def row(self) -> float:
        """From one line to the next."""
        return self._row(self.share)

    def _row(self, share: float) -> float:
        """The same at a share of what it wants to be, and never so near that the names of voices touch."""
        return max(ROW * share * self.u, NAMES * self.small)

    @property
    def leading(self) -> float:
        """From one line of words to the next."""
        return max(LEADING * self.u, STEP * self.small)

    @property
    def bar(self) -> float:
        """Width of a bar."""
        block = self.block(0)
        return (block.right - block.left) / self.content.shown

    def head(self, number: int) -> float:
        """From the top of a pattern to its first line, accents over that one left aside."""
        u, cap = self.u, CAP * self.small
        words = (1.4 * u + cap) * self.own_line
        pointer = POINTER * u * self._pointed(number)
        return CAP * self.title + words + TITLE * u + pointer + cap + UNDER_COUNT * u

    def _pointed(self, number: int) -> bool:
        """Whether there is a pointer over a pattern's count, or over that of the one beside it."""
        return any(one.pattern == number or self.content.beside for one in self.content.passes)

    @property
    def stacked(self) -> int:
        """Patterns that stand one over the other."""
        return 1 if self.content.beside else len(self.content.patterns)

    def body(self, number: int, share: float) -> float:
        """Height of one pattern from its top to the last stroke of its lowest line."""
        lines = len(self.content.voices)
        rows = max(0, lines - 1) * self._row(share)
        return self.head(number) + rows + (ACCENT * sum(self.content.accented) + 1.5) * self.u

    def tall(self, share: float) -> float:
        """Height of the whole with its lines at a share of how far apart they want to be."""
        u = self.u
        words = 0.0
        if self.words:
            words = OVER_WORDS * u + (len(self.words) - 1) * self.leading + CAP * self.small
        bodies = sum(self.body(number, share) for number in range(self.stacked))
        return 2 * PADDING * u + bodies + (self.stacked - 1) * BETWEEN * u + words

    def block(self, number: int) -> Block:
        """Where a pattern stands; its last bar ends at its right, and the sign of the repeat stands after that."""
        u = self.u
        left, right = PADDING * u + self.label, self.width - (PADDING + TAIL) * u
        if not self.content.beside:
            over = sum(self.body(n, self.share) + BETWEEN * u for n in range(number))
            return Block(left, right, self.top + over)
        width = (right - left - (BETWEEN + TAIL) * u) / 2
        start = left + number * (width + (BETWEEN + TAIL) * u)
        return Block(start, start + width, self.top)

    def x(self, number: int, at: Fraction) -> float:
        """The middle of a moment of a page, in bars from its start."""
        bar = int(at) if at < self.content.shown else self.content.shown - 1
        inset = INSET * self.u
        return self.block(number).left + bar * self.bar + inset + float(at - bar) * (self.bar - inset)

    def count_line(self, number: int) -> float:
        """The baseline of a pattern's count."""
        return self.block(number).top + self.head(number) - UNDER_COUNT * self.u

    def y(self, number: int, voice: int) -> float:
        """The height of a voice's line in a pattern."""
        accents = ACCENT * self.u * sum(self.content.accented[: voice + 1])
        return self.block(number).top + self.head(number) + voice * self.row + accents

    def said(self, pattern: Pattern) -> Line:
        """The fullest of what is said of a pattern that has room beside its name, or on a line of its own."""
        lines = [plain(text, self.small, self.theme.weights.regular) for text in pattern.said]
        room = self._room(pattern)
        return next((line for line in lines if line.width <= room), Line())

    def name(self, pattern: Pattern) -> Line:
        """A pattern's name, smaller where it is long."""
        size, strong = self.title, self.theme.weights.strong
        wide = plain(pattern.name, size, strong).width
        return plain(pattern.name, max(self._smallest, size * min(1.0, self.block_width / wide)), strong)

    @property
    def named(self) -> bool:
        """Whether all names have room."""
        return all(self.name(pattern).width <= self.block_width + 1 for pattern in self.content.patterns)

    @property
    def _smallest(self) -> float:
        return self.content.canvas.pixels(SMALLEST)

    def nearest(self) -> float:
        """Units between the two strokes of one line that lie nearest together."""
        gaps = [
            two - one
            for pattern in self.content.patterns
            for line in pattern.lines
            for one, two in pairwise(sorted({*(stroke.at for stroke in line.strokes), *line.missing}))
        ]
        span = min(gaps, default=Fraction(1))
        return float(span) * (self.bar - INSET * self.u) / self.u

    def _room(self, pattern: Pattern) -> float:
        block = self.block_width
        return block if self.own_line else block - self.name(pattern).width - 2 * self.u

    @property
    def block_width(self) -> float:
        """Room for the words over one pattern; the name of the first stands over the names of the voices."""
        room = self.width - 2 * PADDING * self.u
        return room if not self.content.beside else (room - self.label - BETWEEN * self.u) / 2

    def _fits_beside(self, pattern: Pattern) -> bool:
        if not pattern.said:
            return True
        longest = plain(pattern.said[0], self.small, self.theme.weights.regular).width
        return self.name(pattern).width + 2 * self.u + longest <= self.block_width

    def _share(self, height: float) -> float:
        low, high = LEAST, MOST
        for _ in range(8):
            middle = (low + high) / 2
            low, high = (middle, high) if self.tall(middle) <= height else (low, middle)
        return low

    def _words(self, said: tuple[str, ...], room: float) -> tuple[str, ...]:
        lines: tuple[str, ...] = ()
        for text in said:
            lines = balanced(text, self.small, self.theme.weights.regular, room)
            if len(lines) <= (COLUMN_LINES if room <= COLUMN * self.u else MOST_LINES):
                break
        return lines

"""How a loop is arranged in a panel: rows and columns, sizes of type, the words above and below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import NumeralWords, SymbolWords, numeral, smallest_symbol_size, symbol
from studio.drawing.lettering.type import Line, balanced, plain
from studio.drawing.themes.theme import SMALLEST, Theme

UNDER, BETWEEN, ROW, BLOCK, BRACKET = 3.6, 4.0, 5.0, 4.4, 2.2
"""Units: symbols under numerals, one chord beside the next, row under row, words over and under the chords, and the
bracket under a chord that differs."""

REPEAT = 4.5
"""Units that a repeat sign takes at either end of a row."""

SYMBOL = 0.62
"""Size of the symbols here, in shares of the theme's: the numerals lead."""

BAR_INSET = 1.4
"""Units from a bar line to the chord after it."""

LEADING = 1.3
"""From one line of words to the next, in sizes of type."""

LARGE, PLEASANT = 1.6, {False: 0.6, True: 1.1}
"""Scales of type: the most on a card, and the least, off and on a card, that is better than more rows of chords."""

TIGHTEST, WIDEST = 0.45, 1.4
"""Scales of the spaces: the least at which words and chords are still told apart, and the most."""

EDGE, TIGHT = PADDING, 2.4
"""Units between a panel's upper and lower edge and what stands on it: what it wants, and what it can do with."""

BARS_IN_A_ROW = 4
"""Bars of a form that is counted in bars: its lines are of four."""

DROP = 0.22
"""How far the bass after a slash goes under the line, in sizes of the symbols."""

MOST_ROWS = 8
_SMALLER = 0.96


@dataclass(frozen=True)
class Step:
    """One chord of the loop; `differs` where the plain form has another. `place` counts parts of bars from the start,
    where the loop is told bar by bar."""

    numeral: NumeralWords
    symbol: SymbolWords
    differs: bool = False
    place: int | None = None


@dataclass(frozen=True)
class Progression:
    """A loop, the key it is read in, how many times it is heard, and the plain form that it is or is near to.

    `large`: it has a card of its own. `parts` are those of a bar in which chords may fall, 0 for a loop whose chords
    only follow one another.
    """

    canvas: CanvasSize
    title: str
    key: str
    times: int
    steps: tuple[Step, ...]
    plain: str = ""
    large: bool = False
    parts: int = 0

    @property
    def columns(self) -> int:
        """Chords, or parts of bars."""
        if not self.parts:
            return len(self.steps)
        last = self.steps[-1].place or 0
        return (last // self.parts + 1) * self.parts

    @property
    def often(self) -> str:
        """How often it is heard, where that is more than once."""
        return "" if self.times < 2 else "heard twice" if self.times == 2 else f"heard {self.times} times"


class Arrangement:
    """A loop in a panel of some width: `rows` of chords, their type at `scale`. Lengths are pixels."""

    def __init__(self, content: Progression, width: float, theme: Theme, rows: int, scale: float) -> None:
        self.content, self.theme, self.width = content, theme, width
        self.rows, self.scale = rows, scale
        self.u = content.canvas.unit
        self.inset = REPEAT * self.u if content.times > 1 else 0.0
        self.inside = width - 2 * PADDING * self.u
        self.room = self.inside - 2 * self.inset
        self.across = -(-content.columns // rows)
        if content.parts:
            self.across = -(-self.across // content.parts) * content.parts

    @property
    def numeral_size(self) -> float:
        return self.content.canvas.pixels(self.theme.sizes.hero) * self.scale

    @property
    def symbol_size(self) -> float:
        full = self.content.canvas.pixels(self.theme.sizes.symbol) * SYMBOL * self.scale
        return max(full, self.content.canvas.pixels(smallest_symbol_size()))

    @property
    def word_size(self) -> float:
        """Size of the words above and below."""
        size = self.theme.sizes.label * (min(self.scale, 1.0) if not self.content.large else 1.2)
        return self.content.canvas.pixels(max(size, SMALLEST))

    @property
    def gap(self) -> float:
        """By how much the spaces are scaled."""
        return max(TIGHTEST, min(self.scale, WIDEST))

    @cached_property
    def pairs(self) -> tuple[tuple[Line, Line], ...]:
        """The numeral and the symbol of each chord."""
        weights = self.theme.weights
        return tuple(
            (
                numeral(step.numeral, self.numeral_size, weights),
                symbol(step.symbol, self.symbol_size, weights),
            )
            for step in self.content.steps
        )

    @cached_property
    def widths(self) -> tuple[float, ...]:
        """The width of each chord, the wider of its numeral and its symbol."""
        return tuple(max(line.width for line in pair) for pair in self.pairs)

    @property
    def pitch(self) -> float:
        """From one column to the next: all are of one width. The last one needs no space after it."""
        between = 0.0 if self.content.parts else BETWEEN * self.u * self.gap
        return (self.room + between) / self.across

    def place(self, number: int) -> tuple[int, int]:
        """The row and the column of a step."""
        at = self.content.steps[number].place
        return divmod(number if at is None else at, self.across)

    @property
    def fits(self) -> bool:
        return all(
            width + BETWEEN * self.u * self.gap <= self._reach(number) * self.pitch + 0.5
            for number, width in enumerate(self.widths)
        )

    def _reach(self, number: int) -> int:
        """Columns that a step may take: those of its bar up to the next chord of it."""
        parts, steps = self.content.parts, self.content.steps
        if not parts:
            return 1
        at = steps[number].place or 0
        end = (at // parts + 1) * parts
        return min([end, *(step.place for step in steps[number + 1 :] if step.place is not None)]) - at

    def x(self, column: int) -> float:
        """The left end of a column; within bars a little after the line."""
        after = BAR_INSET * self.u if self.content.parts else 0.0
        return PADDING * self.u + self.inset + column * self.pitch + after

    @cached_property
    def head(self) -> tuple[tuple[str, str, str], ...]:
        """The lines above: title, key, and how often it is heard, in one line if they fit it."""
        title, key, often = self.content.title, self.content.key, self.content.often
        regular, strong = self.theme.weights.regular, self.theme.weights.strong
        parts = [plain(title, self.word_size, strong).width] if title else []
        parts += [plain(words, self.word_size, regular).width for words in (key, often) if words]
        if sum(parts) + (len(parts) - 1) * 1.5 * self.u <= self.inside:
            return ((title, key, often),)
        titles = balanced(title, self.word_size, strong, self.inside) if title else ()
        below = (key, often)
        if sum(parts[-2:]) + 1.5 * self.u > self.inside and often:
            return (*((line, "", "") for line in titles), ("", key, ""), ("", often, ""))
        return (*((line, "", "") for line in titles), ("", *below))

    @cached_property
    def foot(self) -> tuple[str, ...]:
        """The lines below: the plain form."""
        if not self.content.plain:
            return ()
        return balanced(self.content.plain, self.word_size, self.theme.weights.regular, self.foot_room)

    @property
    def foot_room(self) -> float:
        return self.inside - self.foot_indent

    @property
    def foot_indent(self) -> float:
        """Room for the small bracket that says what the brackets above mean."""
        marked = any(step.differs for step in self.content.steps)
        return self.word_size * 1.1 if marked else 0.0

    @property
    def row_tall(self) -> float:
        return CAP * (self.numeral_size + self.symbol_size) + UNDER * self.u * self.gap

    @property
    def bracket_tall(self) -> float:
        return BRACKET * self.u * self.gap if any(step.differs for step in self.content.steps) else 0.0

    @property
    def chords_tall(self) -> float:
        step = self.row_tall + self.bracket_tall + ROW * self.u * self.gap
        return step * self.rows - ROW * self.u * self.gap

    @property
    def block(self) -> float:
        """Space between words and chords."""
        return BLOCK * self.u * self.gap

    @property
    def tall(self) -> float:
        """From the top of the first line of words to the foot of the last."""
        head = self._lines_tall(len(self.head)) + self.block
        foot = self.block + self._lines_tall(len(self.foot)) if self.foot else self._drop
        return head + self.chords_tall + foot

    @property
    def _drop(self) -> float:
        """What reaches under the last row, where no words stand there."""
        return DROP * self.symbol_size * any(step.symbol.bass for step in self.content.steps)

    def _lines_tall(self, lines: int) -> float:
        return self.word_size * (CAP + (lines - 1) * LEADING)


def arranged(content: Progression, width: float, theme: Theme, height: float | None = None) -> Arrangement:
    """A loop in as few rows as leave its type large; with a `height`, as large as that allows.

    Where it fits nowhere, it comes at the smallest scale in as many rows as it takes, and `fits` says so.
    """
    counts = _counts(content)
    if height is None:
        for rows in counts:
            for scale in _scales(content, theme):
                found = Arrangement(content, width, theme, rows, scale)
                if scale >= PLEASANT[content.large and not content.parts] and found.fits:
                    return found
    for scale in _scales(content, theme):
        for rows in counts:
            found = Arrangement(content, width, theme, rows, scale)
            if found.fits and (height is None or found.tall <= height):
                return found
    return lowest(content, width, theme)


def lowest(content: Progression, width: float, theme: Theme) -> Arrangement:
    """The arrangement that takes the least height: the smallest type in the fewest rows."""
    ways = [Arrangement(content, width, theme, rows, _least(theme)) for rows in _counts(content)]
    return next((way for way in ways if way.fits), ways[-1])


def _counts(content: Progression) -> Sequence[int]:
    """How many rows there may be: any number of chords in each, or bars by fours, twos and ones."""
    if not content.parts:
        return range(1, min(MOST_ROWS, len(content.steps)) + 1)
    bars = content.columns // content.parts
    return [-(-bars // across) for across in (BARS_IN_A_ROW, 2, 1) if across <= bars]


def _scales(content: Progression, theme: Theme) -> Iterator[float]:
    scale, least = LARGE if content.large else 1.0, _least(theme)
    while scale > least:
        yield scale
        scale *= _SMALLER
    yield least


def _least(theme: Theme) -> float:
    """The scale at which the small parts of a numeral are as small as may be."""
    return smallest_symbol_size() / theme.sizes.hero

"""The progression callout: one loop, large; numerals, the symbols under them, how often it comes round."""

from __future__ import annotations

from dataclasses import dataclass

from PIL import Image

from studio.drawing.frame import PADDING, CanvasSize, panelled
from studio.drawing.lettering.outlines import CAP, missing
from studio.drawing.lettering.reading_words import chord_words, numeral_words
from studio.drawing.lettering.symbols import NumeralWords, SymbolWords, numeral, smallest_symbol_size, symbol
from studio.drawing.lettering.type import Line, plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.project.callouts import CalloutOptions, FactText
from studio.theory.harmony.reading import Reading
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

MOST = 16
"""Chords of one loop in one picture."""

HEAD, UNDER, BETWEEN, ROW = 7.25, 4.0, 4.5, 5.0
"""Units: the line of words at the top, symbols under numerals, one chord beside the next, row under row."""

REPEAT = 4.5
"""Units that a repeat sign takes at either end of a row."""

SYMBOL = 0.62
"""Size of the symbols here, in shares of the theme's: the numerals lead."""


class ProgressionOptions(CalloutOptions):
    """Options of the progression callout."""

    title: FactText | None = None


@dataclass(frozen=True)
class Step:
    """One chord of the loop."""

    numeral: NumeralWords
    symbol: SymbolWords


@dataclass(frozen=True)
class Progression:
    """A loop, the key it is read in, and how many times it is heard."""

    canvas: CanvasSize
    title: str
    key: str
    times: int
    steps: tuple[Step, ...]


class ProgressionKind(Kind):
    """See the module."""

    name = "progression"
    says = "one loop, large: its numerals and chords, and how often it comes round"
    example = "{kind: progression, title: Round and round}"
    Options = ProgressionOptions

    def compose(self, options: ProgressionOptions, ask: Ask) -> Composed:
        canvas = CanvasSize.of(ask.canvas)
        readings = ask.readings()
        if not readings:
            ask.refuse("where", "no chords are written for these bars; write them under song.chords")
        loop = ask.loop()
        if len(loop.readings) > MOST:
            ask.refuse(
                "where",
                f"{len(loop.readings)} chords do not repeat here; choose bars that hold {MOST} at most",
            )
        title = ask.fill(options.title) if options.title else ""
        if strange := missing(title):
            ask.refuse("title", f"the typeface has no {' '.join(strange)}; write it another way")
        steps = tuple(_step(reading) for reading in loop.readings)
        content = Progression(canvas, title, f"in {readings[0].key}", loop.times, steps)
        if _Setting(content, ask.room.width, ask.theme).factor < _least_factor(ask.theme):
            ask.refuse("where", "this loop is too long to be read on a phone; choose fewer bars")
        said = "–".join(step.numeral.text for step in steps)
        names = "–".join(step.symbol.text for step in steps)
        often = f", {_times(loop.times)}" if loop.times > 1 else ""
        return Composed(content, (), None, None, f"Progression {said} in {readings[0].key} ({names}){often}.")

    def extent(self, content: Progression, width: int, theme: Theme) -> Extent:
        setting = _Setting(content, width, theme)
        wanted = setting.tall / content.canvas.unit + 2 * PADDING
        return Extent(wanted * max(0.6, min(1.0, _least_factor(theme) / setting.factor)), wanted)

    def draw(self, content: Progression, look: None, size: tuple[int, int], theme: Theme) -> Image.Image:
        sheet = panelled(size, content.canvas, theme)
        _Setting(content, size[0], theme).draw(sheet)
        return sheet.picture


KIND = ProgressionKind()


class _Setting:
    """How a loop is set in a panel of some width: rows, size, and the drawing of it. Lengths are pixels."""

    def __init__(self, content: Progression, width: float, theme: Theme) -> None:
        self.content, self.theme = content, theme
        self.u = content.canvas.unit
        self.inset = REPEAT * self.u if content.times > 1 else 0.0
        self.room = width - 2 * (PADDING * self.u + self.inset)
        steps = content.steps
        choices = [-(-len(steps) // rows) for rows in (1, 2, 3, 4) if rows <= len(steps)]
        self.across = next((n for n in choices if self._fit(n) >= 0.7), choices[-1])
        self.factor = min(1.0, self._fit(self.across))

    @property
    def rows(self) -> int:
        return -(-len(self.content.steps) // self.across)

    @property
    def row_tall(self) -> float:
        return CAP * (self._numeral_size + self._symbol_size) + UNDER * self.u

    @property
    def tall(self) -> float:
        return HEAD * self.u + self.rows * (self.row_tall + ROW * self.u) - ROW * self.u + 1.5 * self.u

    @property
    def _numeral_size(self) -> float:
        return self.content.canvas.pixels(self.theme.sizes.hero) * getattr(self, "factor", 1.0)

    @property
    def _symbol_size(self) -> float:
        full = self.content.canvas.pixels(self.theme.sizes.symbol) * SYMBOL
        return max(full * getattr(self, "factor", 1.0), self.content.canvas.pixels(smallest_symbol_size()))

    def _lines(self, step: Step) -> tuple[Line, Line]:
        weights = self.theme.weights
        return numeral(step.numeral, self._numeral_size, weights), symbol(
            step.symbol, self._symbol_size, weights
        )

    def _fit(self, across: int) -> float:
        widest = max(
            sum(max(line.width for line in self._lines(step)) for step in self._row(row, across))
            + (len(self._row(row, across)) - 1) * BETWEEN * self.u
            for row in range(-(-len(self.content.steps) // across))
        )
        return self.room / widest

    def _row(self, row: int, across: int) -> tuple[Step, ...]:
        return self.content.steps[row * across : (row + 1) * across]

    def draw(self, sheet: Sheet) -> None:
        colours, u = self.theme.colours, self.u
        small = self.content.canvas.pixels(self.theme.sizes.label)
        shrink = min(1.0, (sheet.height - 2 * u) / self.tall)
        top = (sheet.height - self.tall * shrink) / 2
        base = top + CAP * small
        if self.content.title:
            head = plain(self.content.title, small, self.theme.weights.strong)
            sheet.type(head, PADDING * u, base, colours.ink)
            rest = plain(self.content.key, small, self.theme.weights.regular)
            sheet.type(rest, PADDING * u + head.width + 1.5 * u, base, colours.quiet)
        else:
            sheet.type(
                plain(self.content.key, small, self.theme.weights.regular), PADDING * u, base, colours.quiet
            )
        if self.content.times > 1:
            often = plain(_times(self.content.times), small, self.theme.weights.regular)
            sheet.type(often, sheet.width - PADDING * u, base, colours.quiet, "right")
        top += HEAD * u * shrink
        for row in range(self.rows):
            self._draw_row(sheet, row, top, shrink)
            top += (self.row_tall + ROW * u) * shrink

    def _draw_row(self, sheet: Sheet, row: int, top: float, shrink: float) -> None:
        colours, u = self.theme.colours, self.u
        steps = self._row(row, self.across)
        column = self.room / self.across
        above = top + CAP * self._numeral_size * shrink
        below = above + (UNDER * u + CAP * self._symbol_size) * shrink
        pairs = [tuple(line.scaled(shrink) for line in self._lines(step)) for step in steps]
        widths = [max(line.width for line in pair) for pair in pairs]
        even = all(width + 1.5 * u <= column for width in widths)
        if self.inset:
            self._repeats(sheet, row, top - 0.5 * u, below + 0.5 * u)
        x = PADDING * u + self.inset
        spare = self.room - sum(widths)
        between = max(BETWEEN * u * shrink, min(spare / max(1, len(widths) - 1), 12 * u))
        for pair, width in zip(pairs, widths, strict=True):
            sheet.type(pair[0], x, above, colours.ink)
            sheet.type(pair[1], x, below, colours.quiet)
            x += column if even else width + between

    def _repeats(self, sheet: Sheet, row: int, top: float, bottom: float) -> None:
        """The repeat signs of written music: where the loop starts, and where it goes back."""
        u, colour = self.u, self.theme.colours.rule
        for at_end in (False, True):
            if row != (self.rows - 1 if at_end else 0):
                continue
            edge = sheet.width - PADDING * u if at_end else PADDING * u
            inward = -1 if at_end else 1
            for near, far in ((0.0, 0.7), (1.2, 1.45)):
                left, right = sorted((edge + inward * near * u, edge + inward * far * u))
                sheet.rectangle(left, top, right, bottom, colour)
            for lift in (-1.2, 1.2):
                sheet.dot(edge + inward * 2.5 * u, (top + bottom) / 2 + lift * u, 0.5 * u, colour)


def _step(reading: Reading) -> Step:
    return Step(numeral_words(reading) or NumeralWords("–"), chord_words(reading.at.chord))


def _times(times: int) -> str:
    return {2: "heard twice"}.get(times, f"heard {times} times")


def _least_factor(theme: Theme) -> float:
    return smallest_symbol_size() / theme.sizes.hero

"""Setting the trade's own words: chord symbols as a good fake book prints them, Roman numerals, degrees."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from studio.drawing.lettering.face import Weight
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.quality_signs import with_signs
from studio.drawing.lettering.type import Line, plain
from studio.drawing.themes.theme import SMALLEST, Weights
from studio.music.chord_printing import SIGNS

RAISED = 0.62
"""Size of the raised part of a symbol, in sizes of its root."""

FIGURES = 0.6
"""Size of stacked figures."""

STACKED = 0.63
"""Size of the roots of a polychord, in sizes of a plain root."""

DASH_HEIGHT = 0.27
"""Height of a dash over its baseline, in type sizes (Source Sans 3)."""


@dataclass(frozen=True)
class SymbolWords:
    """A chord symbol in the parts that are set differently: `F♯`, `m`, `7♭9`, `A`."""

    root: str
    quality: str = ""
    raised: str = ""
    bass: str = ""
    upper: SymbolWords | None = None
    """The chord that stands over this one in a polychord."""

    @property
    def text(self) -> str:
        lower = f"{self.root}{self.quality}{self.raised}" + (f"/{self.bass}" if self.bass else "")
        return f"{self.upper.text}|{lower}" if self.upper else lower


@dataclass(frozen=True)
class NumeralWords:
    """A Roman numeral in the parts that are set differently: `♭`, `VI`, `7`, figures `6` over `5`, of `V`."""

    base: str
    accidental: str = ""
    raised: str = ""
    figures: tuple[str, ...] = ()
    of: str = ""

    @property
    def text(self) -> str:
        head = f"{self.accidental}{self.base}{self.raised}{'/'.join(self.figures)}"
        return f"{head}/{self.of}" if self.of else head


_LIFTED = {"°": "°", "ø": "ø", "+": "+", "maj": "maj"} | SIGNS
"""Qualities that are set raised, with what stands for each: the same as in running text."""

NO_CHORD = SymbolWords("N.C.")


def symbol(words: SymbolWords, size: float, weights: Weights) -> Line:
    """A chord symbol whose root is set at `size` pixels; a polychord is set as a stack of two smaller ones."""
    if words.upper is not None:
        return _polychord(words.upper, replace(words, upper=None), size, weights)
    line = Line().then(words.root, size, weights.strong)
    signed = words.root.endswith(("♭", "♯"))
    if words.quality in _LIFTED:
        line = _lifted(line, _LIFTED[words.quality] + words.raised, size, weights)
    else:
        line = line.then(words.quality, size * 0.72, weights.strong, before=size * (0.0 if signed else 0.03))
        line = _lifted(line, words.raised, size, weights)
    if words.bass:
        line = line.then("/", size * 0.92, weights.regular, rise=-size * 0.10, before=size * 0.01)
        line = line.then(words.bass, size * 0.74, weights.strong, rise=-size * 0.13, before=-size * 0.03)
    return line


def _polychord(upper: SymbolWords, lower: SymbolWords, size: float, weights: Weights) -> Line:
    """One chord over another with a rule between, the stack centred on a capital of `size`.

    The chords of the stack are set flat, their small parts nearly as large as their roots: no piece is smaller
    than the raised parts of a plain symbol, so that what is legible there is legible here.
    """
    above, below = _flat(upper, size, weights), _flat(lower, size, weights)
    rule = _rule(max(above.width, below.width), size, weights)
    middle, step = size * CAP / 2, size * STACKED * CAP / 2 + size * 0.1
    width = max(above.width, below.width, rule.width)
    pieces = [
        replace(piece, x=piece.x + (width - part.width) / 2, rise=piece.rise + rise)
        for part, rise in (
            (below, middle - step - size * STACKED * CAP / 2),
            (rule, middle - size * RAISED * DASH_HEIGHT),
            (above, middle + step - size * STACKED * CAP / 2),
        )
        for piece in part.pieces
    ]
    return Line(tuple(pieces), width)


def _flat(words: SymbolWords, size: float, weights: Weights) -> Line:
    """A chord of a stack on one baseline, in two sizes that hardly differ."""
    quality = _LIFTED.get(words.quality, words.quality)
    line = Line().then(words.root, size * STACKED, weights.strong)
    line = line.then(
        with_signs(f"{quality}{words.raised}"), size * RAISED, weights.strong, before=size * 0.02
    )
    return line.then(f"/{words.bass}" if words.bass else "", size * RAISED, weights.strong)


def _rule(width: float, size: float, weights: Weights) -> Line:
    """A rule at least `width` wide, of dashes that overlap so that they join."""
    dash = plain("–", size * RAISED, weights.regular)
    step = dash.width * 0.8
    count = 1 + math.ceil(max(0.0, width - dash.width) / step) if step else 1
    pieces = tuple(replace(dash.pieces[0], x=place * step) for place in range(count))
    return Line(pieces, step * (count - 1) + dash.width)


def numeral(words: NumeralWords, size: float, weights: Weights, weight: Weight | None = None) -> Line:
    """A Roman numeral set at `size` pixels: accidental before it, quality and figures raised after it."""
    bold = weights.strong if weight is None else weight
    line = Line().then(words.accidental + words.base, size, bold)
    line = _lifted(line, words.raised, size, weights, bold)
    line = _stacked(line, words.figures, size, bold)
    if words.of:
        line = line.then("/", size, weights.regular, before=size * 0.02)
        line = line.then(words.of, size, bold, before=size * 0.01)
    return line


def degree(label: str, size: float, weights: Weights) -> Line:
    """A degree such as ♭6, set as one word."""
    return Line().then(label, size, weights.strong)


def smallest_symbol_size() -> float:
    """The size under which a small part of a symbol or a numeral falls below what a phone shows."""
    return SMALLEST / min(RAISED, FIGURES)


def _lifted(line: Line, text: str, size: float, weights: Weights, weight: Weight | None = None) -> Line:
    """`text` smaller, its top a little over the top of the letters before it."""
    rise = size * (CAP * (1 - RAISED) + 0.06)
    bold = weights.strong if weight is None else weight
    return line.then(with_signs(text), size * RAISED, bold, rise=rise, before=size * 0.035)


def _stacked(line: Line, figures: tuple[str, ...], size: float, weight: Weight) -> Line:
    """Figures above one another, the stack centred on the letters before it."""
    if not figures:
        return line
    small, step = size * FIGURES, size * FIGURES * (CAP + 0.08)
    lowest = (size * CAP - step * (len(figures) - 1) - small * CAP) / 2
    if len(figures) == 1:
        return _lifted(line, figures[0], size, Weights(weight, weight, weight))
    start = line.width + size * 0.05
    widest = start
    for index, figure in enumerate(figures):
        rise = lowest + step * (len(figures) - 1 - index)
        stacked = Line(line.pieces, start).then(figure, small, weight, rise=rise)
        widest = max(widest, stacked.width)
        line = Line(stacked.pieces, start)
    return line.widened(widest)

"""Setting the trade's own words: chord symbols as a good fake book prints them, Roman numerals, degrees."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.outlines import CAP
from studio.drawing.theme import SMALLEST, Weights
from studio.drawing.type import Line

RAISED = 0.62
"""Size of the raised part of a symbol, in sizes of its root."""

FIGURES = 0.6
"""Size of stacked figures."""


@dataclass(frozen=True)
class SymbolWords:
    """A chord symbol in the parts that are set differently: `F♯`, `m`, `7♭9`, `A`."""

    root: str
    quality: str = ""
    raised: str = ""
    bass: str = ""

    @property
    def text(self) -> str:
        return f"{self.root}{self.quality}{self.raised}" + (f"/{self.bass}" if self.bass else "")


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


_LIFTED = {"°": "°", "dim": "°", "ø": "ø", "+": "+", "aug": "+", "maj": "maj"}
"""Qualities that are set raised, with the sign that stands for each."""

NO_CHORD = SymbolWords("N.C.")


def symbol(words: SymbolWords, size: float, weights: Weights) -> Line:
    """A chord symbol whose root is set at `size` pixels."""
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


def numeral(words: NumeralWords, size: float, weights: Weights, weight: float | None = None) -> Line:
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


def _lifted(line: Line, text: str, size: float, weights: Weights, weight: float | None = None) -> Line:
    """`text` smaller, its top a little over the top of the letters before it."""
    rise = size * (CAP * (1 - RAISED) + 0.06)
    bold = weights.strong if weight is None else weight
    return line.then(text, size * RAISED, bold, rise=rise, before=size * 0.035)


def _stacked(line: Line, figures: tuple[str, ...], size: float, weight: float) -> Line:
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

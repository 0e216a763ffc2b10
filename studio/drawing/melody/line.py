"""A tune as a line over its chords, as data: its tones, its chords, and the rows that its bars break into."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Literal

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.symbols import SymbolWords
from studio.drawing.themes.theme import SMALLEST

Shape = Literal["chord tone", "other tone", "no chord"]


@dataclass(frozen=True)
class SungTone:
    """One note over one chord, from `start` up to `end` in song quarters.

    `height` counts scale steps up from some fixed note, halves for notes raised or lowered out of the key.
    `names` say what it does, the same in fewer and fewer words; the longest that fits is set. `joined` is
    whether the line comes to it without a rest.
    """

    start: Fraction
    end: Fraction
    height: Fraction
    label: str
    shape: Shape
    names: tuple[str, ...] = ()
    joined: bool = False


@dataclass(frozen=True)
class SungChord:
    """A chord symbol over the line, and where it begins."""

    start: Fraction
    end: Fraction
    symbol: SymbolWords


@dataclass(frozen=True)
class SungRow:
    """A row of bars, from `start` up to `end`; `lines` are the starts of its bars and the end of the last."""

    start: Fraction
    end: Fraction
    lines: tuple[Fraction, ...]


@dataclass(frozen=True)
class SungLine:
    """A tune over its chords, broken into rows.

    `size` is that of the labels on 1080 lines; `tallest` the most units that the callout asks for.
    `keys` are (where, words) that say in which key labels count. `print_size` is that of the names of tones,
    which stand in `print_rows` rows; `short` is whether all have their shortest form.
    """

    canvas: CanvasSize
    tones: tuple[SungTone, ...]
    chords: tuple[SungChord, ...]
    rows: tuple[SungRow, ...]
    size: float
    tallest: float
    keys: tuple[tuple[Fraction, str], ...] = ()
    print_size: float = SMALLEST
    print_rows: int = 1
    short: bool = False

    @cached_property
    def named(self) -> bool:
        """Whether the names of tones stand under the line."""
        return any(tone.names for tone in self.tones)

    @cached_property
    def lowest(self) -> Fraction:
        return min(tone.height for tone in self.tones)

    @cached_property
    def reach(self) -> float:
        """Scale steps from the lowest tone to the highest."""
        return float(max(tone.height for tone in self.tones) - self.lowest)

    def row_at(self, quarters: Fraction) -> int:
        """The row in which a moment stands; the first or the last for what lies outside."""
        return next((n for n, row in enumerate(self.rows) if quarters < row.end), len(self.rows) - 1)


@dataclass(frozen=True)
class Singing:
    """Which row sounds, and which tone of the line; None in rests and before the music."""

    row: int = 0
    now: int | None = None

"""Grooves on their grid as data: a line for each voice of the kit, strokes where they fall."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from studio.drawing.frame import CanvasSize
from studio.music.groove import Touch

Shape = Literal["drum", "cymbal", "open", "hand"]
"""A filled round for a drum and a cross for a cymbal, as drum notation has them; a cross in a ring for an open
hi-hat; a lozenge for what is clapped, clicked or shaken."""


@dataclass(frozen=True)
class Struck:
    """A stroke. `at` counts bars from the start of its groove; `differs` if the groove before it strikes
    otherwise there, or not at all."""

    at: Fraction
    shape: Shape
    touch: Touch = "plain"
    differs: bool = False


@dataclass(frozen=True)
class VoiceLine:
    """One voice of a groove: its strokes in the order of time, and where the groove before it has strokes that this
    one leaves out."""

    strokes: tuple[Struck, ...]
    missing: tuple[Fraction, ...] = ()


@dataclass(frozen=True)
class Pattern:
    """One groove: its name, what is said of it (shorter and shorter), a line for each of the grid's voices, and
    the beats, from 1, that its backbeat falls on or, in an odd meter, that its groups begin on."""

    name: str
    said: tuple[str, ...]
    lines: tuple[VoiceLine, ...]
    beats: int
    steps: int  # equal parts of a beat in which the strokes fall
    backbeats: tuple[int, ...] = ()
    groups: tuple[int, ...] = ()
    syllables: tuple[tuple[Fraction, str], ...] = ()  # what is counted between the beats, by parts of a beat


@dataclass(frozen=True)
class Pass:
    """A bar of the song, in quarters, in which a bar of one of the patterns is played."""

    start: Fraction
    length: Fraction
    pattern: int
    bar: int


@dataclass(frozen=True)
class Grid:
    """One groove, or two to be compared, over the same voices.

    `bars` are those of each pattern and `shown` how many of them stand on a page; `beside` says whether two
    patterns stand side by side rather than one over the other.
    """

    canvas: CanvasSize
    voices: tuple[str, ...]
    patterns: tuple[Pattern, ...]
    bars: int
    shown: int
    beside: bool
    said: tuple[str, ...]
    passes: tuple[Pass, ...]

    @property
    def accented(self) -> tuple[bool, ...]:
        """Which lines have an accent in any pattern, and so need room for it over them."""
        return tuple(
            any(
                stroke.touch == "accent"
                for pattern in self.patterns
                for stroke in pattern.lines[voice].strokes
            )
            for voice in range(len(self.voices))
        )

    @property
    def pages(self) -> int:
        return -(-self.bars // self.shown)


@dataclass(frozen=True)
class Turned:
    """Which page is shown."""

    page: int = 0

"""A stretch of a neck with notes on it, and the room that it needs; `neck_drawing` draws it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.instruments.growth import growth
from studio.drawing.lettering.symbols import SymbolWords
from studio.drawing.lettering.type import plain
from studio.drawing.themes.theme import Theme
from studio.timeline.kind import Extent

STRING, LARGEST_STRING = 4.0, 6.6
"""Units from string to string: at least, and at most."""

NAMES, OPEN, SHUT, END = 4.4, 6.2, 1.0, 1.0
"""Units beside the frets: the strings' names, open strings or a gap where there are none, the far end."""

HEADING, NUMBERS, CAPTION = 8.0, 3.8, 4.0
"""Units: the chord over the neck, fret numbers under it, and words under those."""

TIGHT = 1.6
"""Units over and under the neck where the panel is as low as it can be."""

_DOT = 4.1
"""Units that a dot is wide at least."""

Role = Literal["now", "next", "scale"]


@dataclass(frozen=True)
class NeckDot:
    """A place on the neck with a word on it. `role`: it sounds now, comes next, or belongs to the scale."""

    string: int
    fret: int
    label: str
    role: Role
    root: bool = False


@dataclass(frozen=True)
class Neck:
    """A neck from fret `first` to fret `last`; 0 shows the nut, or the capo, and the open strings.

    `strings`: their names, low string first. `capo`: the fret on which one sits, 0 for none; frets count from it,
    inlays do not. `still`: dots that are always there. `visited`: places that are
    played at some time, shown small. `caption`: words under the neck. `headed`: whether chords stand over it.
    """

    canvas: CanvasSize
    strings: tuple[str, ...]
    first: int
    last: int
    capo: int
    left_handed: bool
    caption: str = ""
    headed: bool = False
    still: tuple[NeckDot, ...] = ()
    visited: tuple[tuple[int, int], ...] = ()
    longest: str = ""
    """The longest word that a dot ever carries; all are made for it."""

    @property
    def frets(self) -> int:
        """How many frets are shown."""
        return self.last - max(self.first, 1) + 1


@dataclass(frozen=True)
class Lit:
    """The dots that sound now and come next, and the chord that sounds, over a neck that shows one."""

    dots: tuple[NeckDot, ...] = ()
    chord: SymbolWords | None = None


def neck_extent(content: Neck, theme: Theme) -> Extent:
    """Height with strings as close as words on them allow, and as wide apart as is pleasant."""
    around = NUMBERS + (HEADING if content.headed else 0.0) + (CAPTION if content.caption else 0.0)
    gaps, grown = len(content.strings), growth(theme)
    return Extent((around + 2 * TIGHT + gaps * STRING) * grown, (around + 2 * PADDING + gaps * 5.7) * grown)


def neck_unit(content: Neck, theme: Theme) -> float:
    """Pixels of one unit of a neck, which grows with the words on it."""
    return content.canvas.unit * growth(theme)


def least_width(content: Neck, theme: Theme) -> float:
    """Pixels that the neck needs so that the words on its dots do not touch."""
    u = neck_unit(content, theme)
    return beside(content) * u + content.frets * (dot_width(content, theme) + 0.5 * u)


def beside(content: Neck) -> float:
    """Units of the neck that stand beside the frets."""
    return 2 * PADDING + NAMES + (OPEN if content.first == 0 else SHUT) + END


@lru_cache(maxsize=64)
def dot_width(content: Neck, theme: Theme) -> float:
    """Pixels that the widest dot takes at the least size."""
    u = neck_unit(content, theme)
    words = plain(content.longest, content.canvas.pixels(theme.sizes.small), theme.weights.heavy).width
    return max(words + 1.3 * u, _DOT * u)

"""What a map of sections holds: the sections to scale, and what is said of each."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.frame import CanvasSize
from studio.drawing.map.block import Block
from studio.drawing.map.ruler import Ruler
from studio.music.place import Span


@dataclass(frozen=True)
class Print:
    """Small print under a block: for each line what may be said, the fullest first. The first line counts the bars;
    what is odd about them is in the second."""

    lines: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True)
class SongMap:
    """Sections to scale. `rows` are stretches of song, one under the other; `legend` says what a mark stands for.
    Where it is `compact`, names are as small as can be read."""

    canvas: CanvasSize
    heading: str
    ruler: Ruler
    rows: tuple[Span, ...]
    blocks: tuple[Block, ...]
    prints: tuple[Print, ...]
    legend: tuple[tuple[int, str, str], ...]
    """(texture, mark, words) of each kind of section; said of those of which a block has no room for its name."""
    compact: bool = False

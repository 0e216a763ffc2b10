"""A block of a map: a stretch of song to scale, and how its name is set in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.type import plain
from studio.drawing.map.small_print import TAIL, tall
from studio.drawing.map.texture import HOLLOW
from studio.drawing.themes.theme import SMALLEST, Theme

INSET = 0.8
"""Units between the edge of a block and its words."""


@dataclass(frozen=True)
class Block:
    """A stretch from `begin` to `end` (shares of the map's whole length).

    `names`: what may be written in it, the fullest first; `mark` stands for them where none has room and a legend
    explains it. Blocks of one `texture` are of one kind. `letter` is set in the texture, "" for none.
    """

    names: tuple[str, ...]
    begin: float
    end: float
    texture: int = HOLLOW
    letter: str = ""
    mark: str = ""


@dataclass(frozen=True)
class Names:
    """The size of all names in pixels, and for each block its lines; () where only its mark has room."""

    size: float
    lines: tuple[tuple[str, ...], ...]

    @property
    def most(self) -> int:
        """Lines of the tallest name."""
        return max((len(lines) for lines in self.lines), default=1) or 1

    @property
    def whole(self) -> bool:
        """Whether every block has its name."""
        return all(self.lines)


@lru_cache(maxsize=256)
def names(
    blocks: tuple[Block, ...],
    widths: tuple[float, ...],
    most: int,
    canvas: CanvasSize,
    theme: Theme,
    compact: bool = False,
) -> Names:
    """How the names of blocks that are `widths` pixels wide are set, all at one size: in full in one line if that
    can be read, else in two if `most` allows it, else all of them shorter. Where nothing fits them all, each block
    has the fullest name that fits it at the smallest size. Where it is `compact` the smallest size is the only one."""
    least = canvas.pixels(SMALLEST)
    largest = least if compact else canvas.pixels(theme.sizes.label)
    ways = product(range(max((len(block.names) for block in blocks), default=0)), range(1, most + 1))
    for variant, lines in ways:
        said = [block.names[min(variant, len(block.names) - 1)] for block in blocks]
        for size in _sizes(largest, least):
            found = tuple(
                _set(name, width, size, lines, canvas, theme)
                for name, width in zip(said, widths, strict=True)
            )
            if all(found):
                return Names(size, found)
    return Names(
        least,
        tuple(
            next(
                (set_ for name in block.names if (set_ := _set(name, width, least, most, canvas, theme))), ()
            )
            for block, width in zip(blocks, widths, strict=True)
        ),
    )


def _sizes(largest: float, least: float) -> Iterator[float]:
    size = largest
    while size > least:
        yield size
        size *= 0.94
    yield least


def _set(
    name: str, width: float, size: float, most: int, canvas: CanvasSize, theme: Theme
) -> tuple[str, ...]:
    """The lines of a name in a block of this width; () where it has no room."""
    room = width - 2 * INSET * canvas.unit
    return next((lines for lines in _ways(name, most) if _widest(lines, size, theme) <= room), ())


def _ways(name: str, most: int) -> list[tuple[str, ...]]:
    """The ways to break a name: whole first, then in two at a space or after a hyphen, the most even first."""
    found: list[tuple[str, ...]] = [(name,)]
    if most > 1:
        cuts = [
            (name[: n + 1].strip(), name[n + 1 :].strip()) for n, sign in enumerate(name) if sign in " -–"
        ]
        found += sorted((cut for cut in cuts if all(cut)), key=lambda cut: max(map(len, cut)))
    return found


def _widest(lines: Sequence[str], size: float, theme: Theme) -> float:
    return max(plain(line, size, theme.weights.strong).width for line in lines)


def name_height(found: Names, canvas: CanvasSize) -> float:
    """Units that the names take at the top of a block, with air over and under them."""
    return (tall(found.most, found.size) + 2 * TAIL * found.size) / canvas.unit


def outside(blocks: Sequence[Block], widths: Sequence[float], canvas: CanvasSize, theme: Theme) -> list[int]:
    """The blocks that have no room even for their mark at the smallest size."""
    least = canvas.pixels(SMALLEST)
    return [
        number
        for number, (block, width) in enumerate(zip(blocks, widths, strict=True))
        if plain(block.mark or block.names[-1], least, theme.weights.strong).width > width
    ]

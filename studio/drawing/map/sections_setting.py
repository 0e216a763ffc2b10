"""Setting a map of sections: how wide its blocks are, what has room under them, and where all of it stands."""

from __future__ import annotations

from functools import lru_cache

from studio.drawing.frame import PADDING
from studio.drawing.lettering.type import Line, plain
from studio.drawing.map.block import Block, Names, name_height, names, outside
from studio.drawing.map.now import OVER
from studio.drawing.map.small_print import LEADING, TAIL, print_size, tall
from studio.drawing.map.song_map import SongMap
from studio.drawing.themes.theme import Theme
from studio.timeline.kind import Extent

ROW_GAP, HEADING_GAP, PRINT_GAP, LEGEND_GAP = 1.6, 2.4, 1.5, 2.5
"""Units: row under row, under the heading, from a block to the small print under it, over a line of the legend."""

TEXTURE_LEAST, TEXTURE_MORE, TEXTURE_MOST = 3.7, 2.8, 8.0
"""Units that the texture of a block is tall at least, how much more is asked for, and at most."""

SWATCH, BESIDE, APART = 5.0, 1.0, 2.5
"""Units of the legend: a texture, from it to its words, and from entry to entry."""


class Setting:
    """How a map is set in a picture of some width. Lengths are pixels, heights of parts units."""

    def __init__(self, content: SongMap, width: float, theme: Theme) -> None:
        self.content, self.theme = content, theme
        canvas, self.u = content.canvas, content.canvas.unit
        self.left, self.room = PADDING * self.u, width - 2 * PADDING * self.u
        shares = [(content.ruler.share(row.start), content.ruler.share(row.end)) for row in content.rows]
        self.begins = [begin for begin, _ in shares]
        self.scale = self.room / max(end - begin for begin, end in shares)
        self.widths = tuple((block.end - block.begin) * self.scale for block in content.blocks)
        self.names: Names = names(content.blocks, self.widths, 2, canvas, theme, content.compact)
        aside = (SWATCH + BESIDE) * self.u
        said = [f"{mark} {words}" for _, mark, words in content.legend]
        self.small = print_size(said, self.room - aside, canvas, theme)
        label = plain(content.heading, canvas.pixels(theme.sizes.label), theme.weights.strong)
        self.heading = label.fitted(self.room)
        self.legend = self._legend() if not self.names.whole else []

    def row_of(self, share: float) -> int:
        """The row in which a moment stands, by its share of the whole."""
        return max(n for n, begin in enumerate(self.begins) if n == 0 or share >= begin - 1e-9)

    def x(self, share: float, row: int) -> float:
        return self.left + (share - self.begins[row]) * self.scale

    @property
    def extent(self) -> Extent:
        """Units: at least one line of small print and no heading; else all, and textures that are easily seen."""
        rows = len(self.content.rows)
        row = OVER + name_height(self.names, self.content.canvas) + TEXTURE_LEAST
        least = PADDING + rows * row + (rows - 1) * ROW_GAP + sum(self.print_heights(1))
        least += self.legend_step * len(self.legend) + max(PADDING, TAIL * self.small / self.u)
        more = sum(self.print_heights(2)) - sum(self.print_heights(1)) + rows * TEXTURE_MORE
        return Extent(least, least + more + self.heading_height)

    @property
    def heading_height(self) -> float:
        """Units of the heading with what is under it; none where there is none."""
        return self.heading.cap / self.u + HEADING_GAP if self.heading.pieces else 0.0

    @property
    def legend_step(self) -> float:
        """Units from line to line of the legend."""
        return tall(1, self.small) / self.u + LEGEND_GAP

    def unnamed(self) -> list[Block]:
        """The blocks that have not even room for their mark."""
        found = outside(self.content.blocks, self.widths, self.content.canvas, self.theme)
        return [self.content.blocks[n] for n in found if not self.names.lines[n]]

    def print_heights(self, most: int) -> list[float]:
        """Units that the small print under each row takes, if it may have `most` lines."""
        counts = [0] * len(self.content.rows)
        for block, print_ in zip(self.content.blocks, self.content.prints, strict=True):
            row = self.row_of(block.begin)
            counts[row] = max(counts[row], min(most, len(print_.lines)))
        return [PRINT_GAP + tall(count, self.small) / self.u if count else 0.0 for count in counts]

    def _legend(self) -> list[list[tuple[int, Line]]]:
        """The entries of the legend in lines."""
        lines: list[list[tuple[int, Line]]] = [[]]
        taken = 0.0
        marked = {
            block.mark for block, said in zip(self.content.blocks, self.names.lines, strict=True) if not said
        }
        for texture, mark, words in self.content.legend:
            if mark not in marked:
                continue
            line = plain(f"{mark} {words}", self.small, self.theme.weights.regular)
            line = line.fitted(self.room - (SWATCH + BESIDE) * self.u)
            wide = line.width + (SWATCH + BESIDE) * self.u
            if lines[-1] and taken + wide > self.room:
                lines.append([])
                taken = 0.0
            lines[-1].append((texture, line))
            taken += wide + APART * self.u
        return lines


@lru_cache(maxsize=32)
def setting(content: SongMap, width: float, theme: Theme) -> Setting:
    """The setting of a map; kept, as each of its states and marks asks for it."""
    return Setting(content, width, theme)


class Heights:
    """Where things stand in a picture of some height. Pixels; `tops` are those of the blocks of each row."""

    def __init__(self, found: Setting, height: float) -> None:
        u, rows = found.u, len(found.content.rows)
        extra = height / u - found.extent.least
        self.heading = bool(found.heading.pieces) and extra >= found.heading_height
        extra -= found.heading_height * self.heading
        second = sum(found.print_heights(2)) - sum(found.print_heights(1))
        self.prints = 2 if extra >= second else 1
        extra -= second if self.prints == 2 else 0.0
        grown = min(TEXTURE_MOST - TEXTURE_LEAST, max(extra, 0.0) / rows)
        self.top = (PADDING + max(extra - grown * rows, 0.0) / 2) * u
        self.named = name_height(found.names, found.content.canvas) * u
        self.block = self.named + (TEXTURE_LEAST + grown) * u
        self.tops: list[float] = []
        at = self.top + found.heading_height * u * self.heading
        for print_height in found.print_heights(self.prints):
            self.tops.append(at + OVER * u)
            self.legend = self.tops[-1] + self.block + print_height * u
            at = self.legend + ROW_GAP * u

    def print_baseline(self, row: int, line: int, found: Setting) -> float:
        """The baseline of a line of small print under a row."""
        under = self.tops[row] + self.block + PRINT_GAP * found.u
        return under + tall(1, found.small) + line * LEADING * found.small

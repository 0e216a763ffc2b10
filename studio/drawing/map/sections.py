"""Drawing a song's sections to scale, in one row or several, with a bracket on the one that sounds."""

from __future__ import annotations

from PIL import Image

from studio.drawing.frame import panelled
from studio.drawing.lettering.type import plain
from studio.drawing.map.blocks import Blocks
from studio.drawing.map.here import Here
from studio.drawing.map.now import pointer_height
from studio.drawing.map.sections_setting import APART, BESIDE, SWATCH, Heights, Setting, setting
from studio.drawing.map.small_print import tall
from studio.drawing.map.song_map import SongMap
from studio.drawing.map.texture import HOLLOW, fill
from studio.drawing.paint import Sheet
from studio.drawing.pointer import pointer
from studio.drawing.themes.theme import Theme
from studio.timeline.kind import Leg, Mark


def draw_sections(content: SongMap, look: Here, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The map with the blocks of `look` lit."""
    sheet = panelled(size, content.canvas, theme)
    found = setting(content, size[0], theme)
    _Map(sheet, found, Heights(found, size[1]), look).draw()
    return sheet.picture


def section_marks(content: SongMap, size: tuple[int, int], theme: Theme) -> tuple[Mark, ...]:
    """The pointer over the blocks of one row after the other."""
    found = setting(content, size[0], theme)
    heights, path = Heights(found, size[1]), list[Leg]()
    for number, row in enumerate(content.rows):
        start = found.left - found.begins[number] * found.scale
        path += content.ruler.legs(row, start, found.scale, pointer_height(heights.tops[number], found.u))
    return (pointer(found.u, tuple(path)),)


class _Map:
    """One map on one sheet."""

    def __init__(self, sheet: Sheet, found: Setting, heights: Heights, look: Here) -> None:
        self.sheet, self.found, self.heights, self.look = sheet, found, heights, look
        self.content, self.theme, self.u = found.content, found.theme, found.u
        self.blocks = Blocks(sheet, self.content.canvas, self.theme)

    def draw(self) -> None:
        found, colours = self.found, self.theme.colours
        if self.heights.heading:
            self.sheet.type(found.heading, found.left, self.heights.top + found.heading.cap, colours.ink)
        for number, row in enumerate(self.content.rows):
            floor = self.heights.tops[number] + self.heights.block
            ends = [found.x(self.content.ruler.share(at), number) for at in (row.start, row.end)]
            thin = 0.125 * self.u
            self.sheet.rectangle(ends[0], floor - thin, ends[1], floor + thin, colours.rule)
        for number in range(len(self.content.blocks)):
            self._block(number, number in self.look.blocks)
        self._legend()

    def _block(self, number: int, lit: bool) -> None:
        block, found = self.content.blocks[number], self.found
        row = found.row_of(block.begin)
        top = self.heights.tops[row]
        left, right = found.x(block.begin, row), found.x(block.end, row)
        box = (left, top, right, top + self.heights.block)
        self.blocks.draw(block, found.names.lines[number], found.names.size, box, self.heights.named, lit)
        for line, said in enumerate(self.content.prints[number].lines[: self.heights.prints]):
            self._print(
                said, line, (left + right) / 2, right - left, self.heights.print_baseline(row, line, found)
            )

    def _print(self, said: tuple[str, ...], line: int, x: float, width: float, baseline: float) -> None:
        """The fullest of what may be said that has room under its block; what is odd is in ink."""
        colour = self.theme.colours.ink if line else self.theme.colours.quiet
        for words in said:
            set_ = plain(words, self.found.small, self.theme.weights.regular)
            if set_.width <= width:
                self.sheet.type(set_, x, baseline, colour, "middle")
                return

    def _legend(self) -> None:
        found, colours, u = self.found, self.theme.colours, self.u
        baseline = self.heights.legend
        for entries in found.legend:
            x = found.left
            baseline += found.legend_step * u
            for texture, line in entries:
                box = (x, baseline - tall(1, found.small) - 0.4 * u, x + SWATCH * u, baseline + 0.4 * u)
                if texture == HOLLOW:
                    left, top, right, bottom = box
                    way = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]
                    self.sheet.stroke(way, 0.25 * u, colours.rule)
                fill(self.sheet, box, texture, u, colours.rule)
                self.sheet.type(line, x + (SWATCH + BESIDE) * u, baseline, colours.quiet)
                x += line.width + (SWATCH + BESIDE + APART) * u

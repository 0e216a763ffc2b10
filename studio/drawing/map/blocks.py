"""Drawing blocks: a frame, a name, a texture that says what a block is like, and a letter in it."""

from __future__ import annotations

from collections.abc import Sequence

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.type import Line, plain
from studio.drawing.map.block import Block
from studio.drawing.map.now import bracket
from studio.drawing.map.small_print import LEADING, TAIL, tall
from studio.drawing.map.texture import Box, fill
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import SMALLEST, Theme

_FRAME = 0.25
"""Units of a block's outline."""


class Blocks:
    """Draws blocks on one sheet. Lengths are pixels."""

    def __init__(self, sheet: Sheet, canvas: CanvasSize, theme: Theme) -> None:
        self.sheet, self.canvas, self.theme = sheet, canvas, theme
        self.u = canvas.unit

    def draw(
        self, block: Block, lines: Sequence[str], size: float, box: Box, named: float, lit: bool
    ) -> None:
        """One block in a box, whose top `named` pixels hold its name; what sounds has a bracket over it."""
        left, top, right, bottom = box
        colours, edge = self.theme.colours, _FRAME * self.u
        colour, ink = (colours.now, colours.now) if lit else (colours.rule, colours.ink)
        inner = (left + edge, top + named, right - edge, bottom - edge)
        letter = self._letter(block.letter, inner) if block.letter and lines else None
        fill(
            self.sheet, inner, block.texture, self.u, colour, self._around(letter, inner) if letter else None
        )
        way = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]
        self.sheet.stroke(way, edge, colours.rule)
        self._name(lines or ((block.mark,) if block.mark else ()), size, box, named, ink)
        if letter:
            middle = (inner[1] + inner[3]) / 2
            self.sheet.type(letter, (left + right) / 2, middle + letter.cap / 2, ink, "middle")
        if lit:
            bracket(self.sheet, left, right, top, self.u, self.theme)

    def _name(
        self, said: Sequence[str], size: float, box: Box, named: float, ink: tuple[int, int, int]
    ) -> None:
        left, top, right, _ = box
        free = named - 2 * TAIL * size - tall(len(said), size)
        baseline = top + TAIL * size + free / 2 + tall(1, size)
        for line in said:
            set_ = plain(line, size, self.theme.weights.strong)
            self.sheet.type(set_, (left + right) / 2, baseline, ink, "middle")
            baseline += LEADING * size

    def _letter(self, letter: str, box: Box) -> Line | None:
        """A letter as large as the texture allows; None where it has no room."""
        for size in (self.theme.sizes.label, SMALLEST):
            line = plain(letter, self.canvas.pixels(size), self.theme.weights.heavy)
            left, top, right, bottom = self._around(line, box)
            if left >= box[0] and right <= box[2] and top >= box[1] and bottom <= box[3]:
                return line
        return None

    def _around(self, line: Line, box: Box) -> Box:
        """The part of a texture that is left out for a letter in its middle."""
        x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        wide, high = line.width / 2 + 0.9 * self.u, line.cap / 2 + 0.6 * self.u
        return (x - wide, y - high, x + wide, y + high)

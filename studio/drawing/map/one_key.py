"""A song that stays in one key: its name, and what its chords do there, in words alone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from PIL import Image

from studio.drawing.frame import PADDING, CanvasSize, panelled
from studio.drawing.lettering.type import Line, balanced, plain
from studio.drawing.map.block import Block
from studio.drawing.map.small_print import LEADING, TAIL, print_size, tall
from studio.drawing.themes.theme import Theme
from studio.timeline.kind import Extent

UNDER_NAME = 2.2
"""Units from the name to the words under it."""


@dataclass(frozen=True)
class OneKey:
    """The name of the key, and sentences about it."""

    canvas: CanvasSize
    name: str
    says: str


class Setting:
    """How it is set in a picture of some width. Pixels."""

    def __init__(self, content: OneKey, width: float, theme: Theme) -> None:
        canvas, self.u = content.canvas, content.canvas.unit
        self.room = width - 2 * PADDING * self.u
        name = plain(content.name, canvas.pixels(theme.sizes.label), theme.weights.strong)
        self.name: Line = name.fitted(self.room)
        self.small = print_size([content.says], self.room, canvas, theme)
        self.lines = (
            balanced(content.says, self.small, theme.weights.regular, self.room) if content.says else ()
        )

    @property
    def under(self) -> float:
        """From the baseline of the name to that of the first line under it."""
        return max(TAIL * self.name.size, UNDER_NAME * self.u) + tall(1, self.small)

    @property
    def words(self) -> float:
        """From the top of the name to the last baseline."""
        more = self.under + (len(self.lines) - 1) * LEADING * self.small if self.lines else 0.0
        return self.name.cap + more

    @property
    def extent(self) -> Extent:
        foot = max(PADDING, TAIL * (self.small if self.lines else self.name.size) / self.u)
        least = PADDING + self.words / self.u + foot
        return Extent(least, least)

    def unnamed(self) -> list[Block]:
        """Nothing: a name alone always has room."""
        return []


@lru_cache(maxsize=32)
def setting(content: OneKey, width: float, theme: Theme) -> Setting:
    """The setting of one key; kept."""
    return Setting(content, width, theme)


def draw_one_key(content: OneKey, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The words on a panel, in the middle of its height."""
    sheet, found, colours = (
        panelled(size, content.canvas, theme),
        setting(content, size[0], theme),
        theme.colours,
    )
    left = PADDING * found.u
    baseline = max(PADDING * found.u, (size[1] - found.words) / 2) + found.name.cap
    sheet.type(found.name, left, baseline, colours.ink)
    baseline += found.under
    for line in found.lines:
        sheet.type(plain(line, found.small, theme.weights.regular), left, baseline, colours.quiet)
        baseline += LEADING * found.small
    return sheet.picture

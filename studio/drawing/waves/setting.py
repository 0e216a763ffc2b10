"""Setting the waves of stems: how tall the rows are, how wide their names, and where the waves stand."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import Line, plain
from studio.drawing.map.small_print import print_size
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.drawing.waves.stem_rows import StemRow, Waves
from studio.timeline.kind import Extent

HEAD_GAP, ROW_LEAST, ROW_WANTED, ROW_GAP, ASIDE = 1.8, 4.4, 8.0, 0.8, 2.6
"""Units: from bar numbers to the rows, a row's height, what is between rows, and between a name and its wave."""

TIGHT = 2.0
"""Units over and under everything at the least height."""

UNDER_NAME, ROW_AIR = 1.1, 1.0
"""Units: from a name to the word "muted" under it, and over and under the words of a row."""

_AROUND = 0.24
"""Over and under the capitals of a name in the lowest row, in sizes of type."""

MUTED, SILENT = "muted", "silent here"


class Setting:
    """How rows are set in a picture of some size. Pixels."""

    def __init__(self, content: Waves, size: tuple[int, int], theme: Theme) -> None:
        self.content, self.theme = content, theme
        canvas, self.u = content.canvas, content.canvas.unit
        self.small, head = _small(content, theme), _head(content, theme)
        rows, least = len(content.rows), rows_extent(content, theme).least
        padding = min(PADDING, TIGHT + max(0.0, size[1] / self.u - least) / 2)
        room = size[1] - (2 * padding + head) * self.u
        self.row = (room + ROW_GAP * self.u) / rows - ROW_GAP * self.u
        self.row = min(self.row, 1.5 * max(ROW_WANTED, _stacked(content, theme)) * self.u)
        self.top = (size[1] - rows * (self.row + ROW_GAP * self.u) + (ROW_GAP + head) * self.u) / 2
        self.stacked = self.row >= _stacked(content, theme) * self.u - 0.01
        self.names = names(content.rows, size[0], self.stacked, canvas, theme)
        self.left = PADDING * self.u + name_width(self.names, self.stacked, content, theme) + ASIDE * self.u
        self.right = size[0] - PADDING * self.u
        self.silent = plain(SILENT, self.small, theme.weights.regular)

    def row_top(self, number: int) -> float:
        return self.top + number * (self.row + ROW_GAP * self.u)

    def x(self, share: float) -> float:
        return self.left + share * (self.right - self.left)

    @property
    def silence(self) -> tuple[float, float]:
        """From where up to where the words of a silent row interrupt its lines."""
        return self.left + 1.5 * self.u, self.left + self.silent.width + 3.1 * self.u

    @property
    def bottom(self) -> float:
        return self.row_top(len(self.content.rows) - 1) + self.row


def _small(content: Waves, theme: Theme) -> float:
    return print_size([MUTED], 24 * content.canvas.unit, content.canvas, theme)


def _head(content: Waves, theme: Theme) -> float:
    """Units of the line of bar numbers."""
    return CAP * _small(content, theme) / content.canvas.unit + HEAD_GAP + 0.5


def _stacked(content: Waves, theme: Theme) -> float:
    """Units of a row from which on the word "muted" has room under the name."""
    words = CAP * (content.canvas.pixels(theme.sizes.label) + _small(content, theme)) / content.canvas.unit
    return words + UNDER_NAME + ROW_AIR


def names(
    rows: Sequence[StemRow], width: int, stacked: bool, canvas: CanvasSize, theme: Theme
) -> tuple[Line, ...]:
    """The names of stems, all at the largest size at which they leave most of the width to the waves."""
    largest, least = canvas.pixels(theme.sizes.label), canvas.pixels(SMALLEST)
    lines = [plain(row.name, largest, theme.weights.strong) for row in rows]
    widest = max(line.width for line in lines)
    factor = max(least / largest, min(1.0, width * (0.3 if stacked else 0.2) / widest))
    return tuple(line.scaled(factor) for line in lines)


def name_width(found: Sequence[Line], stacked: bool, content: Waves, theme: Theme) -> float:
    """Pixels that names take, and the words "muted" under or after them, and the note over them."""
    small, regular = _small(content, theme), theme.weights.regular
    muted = plain(MUTED, small, regular).width
    widths = [plain(content.note, small, regular).width]
    for line, row in zip(found, content.rows, strict=True):
        beside = 0.0 if row.sounds else muted
        widths.append(max(line.width, beside) if stacked else line.width + beside + content.canvas.unit)
    return max(widths)


def rows_extent(content: Waves, theme: Theme) -> Extent:
    """Units that the rows need, and ask for."""
    unit, small = content.canvas.unit, _small(content, theme)
    letters = max(small, content.canvas.pixels(theme.sizes.label)) / unit
    least = max(ROW_LEAST, (CAP + _AROUND) * letters)
    wanted = max(ROW_WANTED, _stacked(content, theme), least)

    def tall(row: float, padding: float) -> float:
        return 2 * padding + _head(content, theme) + len(content.rows) * (row + ROW_GAP) - ROW_GAP

    return Extent(tall(least, TIGHT), tall(wanted, PADDING))


@lru_cache(maxsize=16)
def setting(content: Waves, size: tuple[int, int], theme: Theme) -> Setting:
    """The setting of waves in a picture of some size."""
    return Setting(content, size, theme)

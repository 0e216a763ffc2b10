"""How tall a line over its chords is: its rows, the words around it, the dots of its pages."""

from __future__ import annotations

import math

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.outlines import CAP
from studio.drawing.melody.line import SungLine
from studio.drawing.melody.placing import label_height, symbol_size
from studio.drawing.melody.small_print import print_height
from studio.drawing.themes.theme import Theme

TICK_ZONE, UNDER_KEY, UNDER_SYMBOL, ROW_GAP = 2.8, 2.0, 1.6, 2.5
"""Units: the tick over a row, from the key to the symbols, from these to the highest note, row under row."""

STEP, LEAST_STEP, TALLEST_LINE, LEAST_LINE = 2.7, 0.8, 20.0, 5.0
"""Units of one scale step and the least of it, and between the lowest and the highest note."""

TIGHT, DOTS = 2.0, 1.4
"""Units over and under the rows where a panel is as low as it can be, and for the dots of several pages."""


def row_heights(line: SungLine, theme: Theme) -> tuple[float, float]:
    """Units that a row takes at least, and that it wants."""
    words = TICK_ZONE + UNDER_SYMBOL + (key_height(line, theme) + print_height(line)) / line.canvas.unit
    words += (CAP * symbol_size(line, theme) + label_height(line)) / line.canvas.unit
    least = min(TALLEST_LINE, max(LEAST_STEP * line.reach, min(LEAST_LINE, line.reach * STEP)))
    return words + least, words + min(TALLEST_LINE, STEP * line.reach)


def least_units(line: SungLine, theme: Theme) -> float:
    """Units of height that a panel has at least."""
    return row_heights(line, theme)[0] + 2 * TIGHT + (DOTS if len(line.rows) > 1 else 0.0)


def rows_on_a_page(line: SungLine, height: float, theme: Theme) -> int:
    """How many rows a panel of some height (in pixels) shows at once."""
    return _fitting(line, height / line.canvas.unit - 2 * TIGHT, row_heights(line, theme)[1])


def wanted_units(line: SungLine, theme: Theme) -> float:
    """Units of height for as many whole rows as the callout may ask for."""
    wanted = row_heights(line, theme)[1]
    rows = _fitting(line, line.tallest - 2 * PADDING, wanted)
    dots = DOTS if rows < len(line.rows) else 0.0
    return rows * (wanted + ROW_GAP) - ROW_GAP + 2 * PADDING + dots


def tallest(canvas: CanvasSize) -> float:
    """Units that a callout along the bottom may ask for; two rows on a tall canvas."""
    return 90.0 if canvas.portrait else 51.0


def _fitting(line: SungLine, units: float, row: float) -> int:
    """How many rows of so many units have room; the dots of pages take some where not all of them do."""
    rows = math.floor((units + ROW_GAP + 0.01) / (row + ROW_GAP))
    if rows < len(line.rows):
        rows = math.floor((units - DOTS + ROW_GAP + 0.01) / (row + ROW_GAP))
    return min(len(line.rows), max(1, rows))


def key_height(line: SungLine, theme: Theme) -> float:
    """Pixels of the key over the symbols, where labels count in it."""
    return UNDER_KEY * line.canvas.unit + CAP * line.canvas.pixels(theme.sizes.small) if line.keys else 0.0

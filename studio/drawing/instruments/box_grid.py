"""Chord boxes in rows and columns on a panel, the one that sounds now under a bracket; more of them turn like pages."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from PIL import Image

from studio.drawing.frame import CORNER, PADDING, CanvasSize
from studio.drawing.instruments.chord_box import (
    LARGEST,
    TIGHTEST,
    BoxDrawing,
    BoxLayout,
    ChordBox,
    box_height,
    box_width,
)
from studio.drawing.instruments.growth import growth
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain
from studio.drawing.paging import page_dots
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.timeline.kind import Extent

BETWEEN, ROW_GAP, CAPTION, PAGE_DOTS = 0.9, 1.8, 4.6, 1.4
"""Units between boxes side by side and above one another, for the words under them all, and for the pages' dots."""

TIGHT = 1.3
"""Units over and under the boxes where the panel is as low as it can be."""

WANTED = 1.3
"""Boxes are wanted so many times their least size."""


@dataclass(frozen=True)
class Boxes:
    """The boxes of a stretch of song, each chord once, in the order in which they come.

    `caption`: words under them, as "capo 2". `tallest`: the most units that the callout may ask for.
    """

    layout: BoxLayout
    boxes: tuple[ChordBox, ...]
    caption: str
    tallest: float

    @property
    def canvas(self) -> CanvasSize:
        return self.layout.canvas


@dataclass(frozen=True)
class Shown:
    """Which box sounds now and which comes next, None for neither; and after which one it is that none does."""

    now: int | None = None
    next: int | None = None
    after: int | None = None

    @property
    def at(self) -> int:
        """The box whose page is shown."""
        return next((box for box in (self.now, self.next, self.after) if box is not None), 0)


@dataclass(frozen=True)
class Grid:
    """How many columns and rows of boxes stand on a page, and how large the boxes are."""

    columns: int
    rows: int
    factor: float
    pages: int


def boxes_extent(content: Boxes, width: int, theme: Theme) -> Extent:
    """Height of one row of the least size, and of all boxes, as far as they may ask."""
    around = _under(content, theme)
    least = box_height(content.layout, theme, TIGHTEST) + 2 * TIGHT + around
    room = max(content.tallest, least) * content.canvas.unit
    grid = arranged(content, width, room, theme)
    factor = min(grid.factor, WANTED)
    tall = grid.rows * (box_height(content.layout, theme, factor) + ROW_GAP) - ROW_GAP
    return Extent(
        least, max(least, tall + 2 * PADDING + (around if content.caption or grid.pages > 1 else 0.0))
    )


@lru_cache(maxsize=64)
def arranged(content: Boxes, width: float, height: float, theme: Theme) -> Grid:
    """The boxes in a panel of this size: on as few pages as there can be, and then as large as there is room for."""
    across = width / content.canvas.unit - 2 * PADDING
    under = _under(content, theme)
    down = height / content.canvas.unit - 2 * TIGHT - under + ROW_GAP + 0.01
    count = len(content.boxes)

    def fitting(on_page: int, factor: float) -> tuple[int, int] | None:
        """Columns and as few rows as so many boxes can have, None if they do not fit."""
        for rows in range(1, int(down / (box_height(content.layout, theme, factor) + ROW_GAP)) + 1):
            columns = -(-on_page // rows)
            if _across(column_widths(content, theme, factor, columns)) <= across:
                return columns, rows
        return None

    least = 1.0 if fitting(1, 1.0) is not None else TIGHTEST
    pages = next((pages for pages in range(1, count) if fitting(-(-count // pages), least)), count)
    on_page = -(-count // pages)
    sizes = (least + step * 0.05 for step in range(round((LARGEST - least) / 0.05), -1, -1))
    found = next(
        ((fit, size) for size in sizes if (fit := fitting(on_page, size)) is not None), ((1, 1), TIGHTEST)
    )
    (columns, rows), factor = found
    return Grid(columns, rows, factor, pages)


def _under(content: Boxes, theme: Theme) -> float:
    """Units under the boxes: for the words there, or for the dots of pages."""
    return CAPTION * growth(theme) if content.caption else PAGE_DOTS


def least_panel(content: Boxes, theme: Theme) -> float:
    """Pixels across that one box needs on its panel."""
    widths = column_widths(content, theme, TIGHTEST, 1)
    return (_across(widths) + 2 * PADDING) * content.canvas.unit


def column_widths(content: Boxes, theme: Theme, factor: float, columns: int) -> tuple[float, ...]:
    """Units that each column takes; there is room for the number of a fret in those that ever show one."""
    wide, narrow = (
        box_width(content.layout, content.boxes, theme, factor, numbered) for numbered in (True, False)
    )
    return tuple(wide if _is_numbered(content, column, columns) else narrow for column in range(columns))


def _is_numbered(content: Boxes, column: int, columns: int) -> bool:
    return any(box.lowest > 1 for box in content.boxes[column::columns])


def _across(widths: tuple[float, ...]) -> float:
    return sum(widths) + BETWEEN * (len(widths) - 1)


def draw_boxes(content: Boxes, look: Shown, size: tuple[int, int], theme: Theme) -> Image.Image:
    """The page of boxes on which what sounds stands, on a panel as wide as the boxes need."""
    u, colours = content.canvas.unit, theme.colours
    sheet = Sheet(size)
    grid = arranged(content, size[0], size[1], theme)
    drawing = BoxDrawing(sheet, content.layout, content.boxes, grid.factor, theme)
    tall = box_height(content.layout, theme, grid.factor) * u
    widths = column_widths(content, theme, grid.factor, grid.columns)
    wide = (_across(widths) + 2 * PADDING) * u
    sheet.panel(colours.panel, theme.panel_opacity, CORNER * u, (0, 0, min(wide, size[0]), size[1]))
    on_page = grid.columns * grid.rows
    page = look.at // on_page
    under = (_under(content, theme) if content.caption or grid.pages > 1 else 0.0) * u
    block = grid.rows * (tall + ROW_GAP * u) - ROW_GAP * u
    top = (size[1] - under - block) / 2
    for place, number in enumerate(range(page * on_page, min((page + 1) * on_page, len(content.boxes)))):
        row, column = divmod(place, grid.columns)
        state = "now" if number == look.now else "next" if number == look.next else ""
        x = (PADDING + sum(widths[:column]) + BETWEEN * column) * u
        numbered = _is_numbered(content, column, grid.columns)
        drawing.draw(content.boxes[number], x, top + row * (tall + ROW_GAP * u), numbered, state)
    if content.caption:
        small = content.canvas.pixels(theme.sizes.small)
        line = plain(content.caption, small, theme.weights.regular).fitted(
            min(wide, size[0]) - 2 * PADDING * u
        )
        baseline = top + block + (under + CAP * small) / 2
        sheet.type(line, PADDING * u, baseline, colours.quiet)
    _dots(sheet, grid, page, content, min(wide, size[0]), theme)
    return sheet.picture


def _dots(sheet: Sheet, grid: Grid, page: int, content: Boxes, wide: float, theme: Theme) -> None:
    """The page's dots in the lower right corner of the panel, which may be narrower than the picture."""
    panel = Sheet((round(wide), sheet.height))
    page_dots(panel, grid.pages, page, content.canvas, theme)
    sheet.lay(panel.picture, 0, 0)

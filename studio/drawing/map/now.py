"""Where we are on a map: a pointer that moves over its blocks, and a bracket over the block that sounds."""

from __future__ import annotations

from studio.drawing.paint import Sheet
from studio.drawing.pointer import POINTER_TALL
from studio.drawing.themes.theme import Theme

BRACKET_ZONE, AIR = 2.2, 0.5
"""Units from the pointer to the blocks, in which the bracket is; of them those that keep it off the block's frame."""

OVER = POINTER_TALL + BRACKET_ZONE
"""Units over the blocks."""

_THICK = 0.7


def pointer_height(blocks: float, unit: float) -> float:
    """Where the middle of the pointer is, over blocks whose top is at `blocks`. Pixels."""
    return blocks - (BRACKET_ZONE + POINTER_TALL / 2) * unit


def bracket(sheet: Sheet, left: float, right: float, blocks: float, unit: float, theme: Theme) -> None:
    """The bracket from `left` to `right`, over blocks whose top is at `blocks`. Pixels."""
    top, bottom = blocks - BRACKET_ZONE * unit, blocks - AIR * unit
    edge = _THICK * unit
    one, two, line = left + edge / 2, right - edge / 2, top + edge / 2
    sheet.rectangle(left, top, right, top + edge, theme.colours.now)
    for x in (one, two):
        sheet.rectangle(x - edge / 2, line, x + edge / 2, bottom, theme.colours.now)

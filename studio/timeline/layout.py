"""Where things go on the canvas: one column of bands inside title-safe, filled from the bottom up.

Title-safe is 90 % of width and height of a 16:9 picture (SMPTE ST 2046-1; EBU R 95). On a portrait picture
players put their own buttons over the lowest 20 % and the right 12 %, so those are kept free (common practice).
Two callouts that are on screen together never overlap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.project.episode_values import Canvas
from studio.timeline.state import Box

UNITS = 135  # of the shorter side: 8 pixels each at 1080 lines
_STRIP, _GAP, _BURNT, _TITLE = 2, 2, 6, 16
SMALLEST = Fraction(3, 5)  # of the height that a callout asks for, before it no longer reads


@dataclass(frozen=True)
class NoRoom:
    """Stands for the box of a callout that fits nowhere; the sentence names the remedy."""

    sentence: str


@dataclass(frozen=True)
class Wanted:
    """A callout that needs a place: frames on screen, height in units, and its slot (`lower` or `card`)."""

    start: int
    end: int
    height: int
    slot: str

    def meets(self, other: Wanted) -> bool:
        return self.start < other.end and other.start < self.end


def unit(canvas: Canvas) -> Fraction:
    """Pixels in one unit of layout."""
    return Fraction(min(canvas.width, canvas.height), UNITS)


def title_safe(canvas: Canvas) -> Box:
    """The part of the canvas that text may use."""
    left, top = canvas.width * Fraction(5, 100), canvas.height * Fraction(5, 100)
    right, bottom = canvas.width - left, canvas.height - top
    if canvas.height > canvas.width:
        right, bottom = canvas.width * Fraction(88, 100), canvas.height * Fraction(80, 100)
    return _box(left, top, right, bottom)


def strip_box(canvas: Canvas) -> Box:
    """The clapper strip lies along the bottom of title-safe."""
    area = title_safe(canvas)
    return _box(area.x, area.bottom - _STRIP * unit(canvas), area.right, area.bottom)


def burnt_boxes(canvas: Canvas) -> tuple[Box, Box]:
    """The row at the top of title-safe where the rough cut's name (left) and timecode (right) are burnt in."""
    area, height = title_safe(canvas), _BURNT * unit(canvas)
    middle = area.right - 34 * unit(canvas)
    return (
        _box(area.x, area.y, middle, area.y + height),
        _box(middle, area.y, area.right, area.y + height),
    )


def callout_area(canvas: Canvas) -> Box:
    """Where callouts may be: title-safe less the row and the title at the top, and the strip at the bottom."""
    area, one = title_safe(canvas), unit(canvas)
    return _box(area.x, area.y + (_BURNT + _TITLE) * one, area.right, area.bottom - (_STRIP + _GAP) * one)


def place(wanted: Sequence[Wanted], canvas: Canvas) -> list[Box | NoRoom]:
    """A box for each callout, in the order given; NoRoom in the place of one that has none.

    `lower` callouts stack upwards from the bottom, `card` callouts share what the lower ones leave.
    """
    area, one = callout_area(canvas), unit(canvas)
    found: dict[int, Box | NoRoom] = {}
    for slot in ("lower", "card"):
        for index, callout in enumerate(wanted):
            if callout.slot != slot:
                continue
            taken = [box for n, box in found.items() if isinstance(box, Box) and callout.meets(wanted[n])]
            floor = min((Fraction(box.y) - _GAP * one for box in taken), default=Fraction(area.bottom))
            found[index] = _fitted(callout, area, floor, one)
    return [found[index] for index in range(len(wanted))]


def _fitted(callout: Wanted, area: Box, floor: Fraction, one: Fraction) -> Box | NoRoom:
    room, height = floor - area.y, callout.height * one
    if room < height * SMALLEST:
        return NoRoom(
            "there is no room for it beside what is on screen at that time; give one of them a 'when'"
        )
    if callout.slot == "card":
        height = max(height, min(room, height * 3 / 2))
        top = area.y + (room - min(height, room)) / 2
        return _box(area.x, top, area.right, top + min(height, room))
    return _box(area.x, floor - min(height, room), area.right, floor)


def _box(left: Fraction | int, top: Fraction | int, right: Fraction | int, bottom: Fraction | int) -> Box:
    x, y = (round(Fraction(edge) / 2) * 2 for edge in (left, top))
    x_end, y_end = (round(Fraction(edge) / 2) * 2 for edge in (right, bottom))
    return Box(x, y, x_end - x, y_end - y)

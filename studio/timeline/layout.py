"""Where things go on the canvas: furniture along the edges of title-safe, callouts in their slots between.

Title-safe is 90 % of width and height of a 16:9 picture (SMPTE ST 2046-1; EBU R 95). On a portrait picture
players put their own buttons over the lowest 20 % and the right 12 %, so those are kept free (common practice).
Slots lie on twelve columns with a gutter between; a callout is as tall as it wants to be while there is room.
Two callouts that are on screen together never overlap, and none covers what is kept free for the presenter.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, NamedTuple

from studio.project.episode_values import Canvas
from studio.theory.plain_english import listed
from studio.timeline.kind import Extent
from studio.timeline.slots import COLUMNS, SIDES, SlotName, Slots, shape
from studio.timeline.state import Box

UNITS = 135  # of the shorter side: 8 pixels each at 1080 lines
_STRIP, _GAP, _BURNT, _TITLE = 2, 2, 6, 16
_WIDE_ENOUGH = Fraction(9, 20)  # of a slot's own width: under it, what is left is no longer that slot
_HIGH_ENOUGH = 8  # units
_LOWER = {
    "wide": Fraction(2, 3),
    "square": Fraction(3, 5),
    "tall": Fraction(11, 20),
}  # of the height: where it begins
_HEADROOM = 22  # units over the head of somebody who stands in the middle of a tall picture
_MIDDLE = {"wide": (5, 8), "tall": (1, 12), "square": (4, 9)}  # columns of somebody who stands in the middle

Presenter = Literal["left", "right", "middle"]


@dataclass(frozen=True)
class NoRoom:
    """Stands for the box of a callout that fits nowhere; the sentence names the remedy."""

    sentence: str


Times = tuple[tuple[int, int], ...]
"""Frames at which something is on screen, each from and up to, in order and apart."""


def meet(one: Times, other: Times) -> bool:
    """Whether two things are ever on screen together."""
    return any(start < last and first < end for start, end in one for first, last in other)


@dataclass(frozen=True)
class Wanted:
    """A callout that needs a place: its kind, its times on screen, its slot and that slot's region, its height."""

    name: str
    times: Times
    slot: SlotName
    region: Box
    extent: Extent

    def meets(self, other: Wanted) -> bool:
        return meet(self.times, other.times)


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


def callout_area(canvas: Canvas, titled: bool = True) -> Box:
    """Where callouts may be: title-safe less the row at the top and the strip at the bottom, and less the
    title of a segment that has one on its ground."""
    area, one = title_safe(canvas), unit(canvas)
    top = area.y + (_BURNT + (_TITLE if titled else _GAP)) * one
    return _box(area.x, top, area.right, area.bottom - (_STRIP + _GAP) * one)


def region(
    slot: SlotName,
    canvas: Canvas,
    slots: Slots,
    *,
    titled: bool = True,
    presenter: Presenter | None = None,
    beside: Collection[SlotName] = (),
) -> Box | NoRoom:
    """The room of a slot: its columns, less what is kept free for the presenter.

    A card also gives way to the columns `beside` it, when callouts are in those at the same time.
    """
    found: Box | None = _columns(slot, canvas, slots, titled)
    if presenter is not None and found is not None:
        found = _less(found, kept_free(presenter, canvas, slots, titled), slot, _GAP * unit(canvas))
    for side in beside if slot == "card" else ():
        found = (
            _less(found, _columns(side, canvas, slots, titled), slot, _GAP * unit(canvas)) if found else None
        )
    whole = _columns(slot, canvas, slots, titled).width
    if found is None or found.width < whole * _WIDE_ENOUGH or found.height < _HIGH_ENOUGH * unit(canvas):
        if presenter is None:
            return NoRoom(
                f"the columns beside it leave no room; give one of them a 'when', or a slot other than '{slot}'"
            )
        return NoRoom(f"the presenter stands there; choose a slot other than '{slot}'")
    return found


def place(wanted: Sequence[Wanted], canvas: Canvas) -> list[Box | NoRoom]:
    """A box for each callout, in the order given; NoRoom in the place of one that has none.

    `lower` callouts stack upwards from the bottom, `top` ones downwards from the top, the columns and the
    card share what those leave. Where all cannot be as tall as they want, each is as tall as it must be.
    """
    found = _placed(wanted, canvas)
    if any(isinstance(box, NoRoom) for box in found):
        tight = [
            replace(one, extent=Extent(one.extent.least, one.extent.least))
            if _crowded(n, wanted, found)
            else one
            for n, one in enumerate(wanted)
        ]
        found = _placed(tight, canvas)
    return found


def _crowded(number: int, wanted: Sequence[Wanted], found: Sequence[Box | NoRoom]) -> bool:
    """Whether a callout meets one that has no room."""
    return any(
        isinstance(box, NoRoom) and wanted[number].meets(other)
        for other, box in zip(wanted, found, strict=True)
    )


def _placed(wanted: Sequence[Wanted], canvas: Canvas) -> list[Box | NoRoom]:
    found: dict[int, Box | NoRoom] = {}
    for slot in ("lower", "top", "left", "right", "card"):
        for index, one in enumerate(wanted):
            if one.slot == slot:
                met = {n: box for n, box in found.items() if isinstance(box, Box) and one.meets(wanted[n])}
                alone = sum(one.meets(other) for other in wanted if other.slot == slot) == 1
                found[index] = _fitted(one, tuple(met.values()), unit(canvas), alone) or _crowded_out(
                    one.name, dict.fromkeys(wanted[n].name for n in met)
                )
    return [found[index] for index in range(len(wanted))]


def _crowded_out(name: str, others: Iterable[str]) -> NoRoom:
    return NoRoom(
        f"{name} has no room beside {listed(others)} at that time; give one of them a 'when', or another 'slot'"
    )


def _fitted(one: Wanted, taken: Sequence[Box], pixels: Fraction, alone: bool) -> Box | None:
    """The box of a callout beside the boxes that are taken while it is on screen: in the lowest gap for the
    lower third, else in the highest, where it can be as tall as it wants, or as it must. None where it cannot."""
    least, most = (math.ceil(units) * pixels for units in (one.extent.least, one.extent.wanted))
    gaps = _gaps(one.region, taken, _GAP * pixels)
    if one.slot == "lower":
        gaps.reverse()
    fitting = [gap for gap in gaps if gap.height >= most] or [gap for gap in gaps if gap.height + 1 >= least]
    if not fitting:
        return None
    gap = fitting[0]
    height = min(most, gap.height)
    top = gap.top
    if one.slot == "lower":
        top = gap.bottom - height
    elif one.slot == "card" and alone:
        top = gap.top + (gap.height - height) / 2
    return _box(one.region.x, top, one.region.right, top + height)


@dataclass(frozen=True)
class _Gap:
    """A part of a region from top to bottom in which nothing stands."""

    top: Fraction
    bottom: Fraction

    @property
    def height(self) -> Fraction:
        return self.bottom - self.top


def _gaps(region: Box, taken: Sequence[Box], apart: Fraction) -> list[_Gap]:
    """The gaps that boxes leave in a region, from the top; a gap keeps `apart` from the boxes."""
    gaps, top = [], Fraction(region.y)
    for box in sorted(taken, key=lambda box: box.y):
        if box.x < region.right and region.x < box.right:
            if (bottom := min(box.y - apart, Fraction(region.bottom))) > top:
                gaps.append(_Gap(top, bottom))
            top = max(top, box.bottom + apart)
    if region.bottom > top:
        gaps.append(_Gap(top, Fraction(region.bottom)))
    return gaps


def _columns(slot: SlotName, canvas: Canvas, slots: Slots, titled: bool) -> Box:
    """The columns of a slot, from the top of the callouts' area to its bottom or as far as it may reach."""
    area, one, about = callout_area(canvas, titled), unit(canvas), slots.on(canvas)[slot]
    column = (area.width - (COLUMNS - 1) * _GAP * one) / Fraction(COLUMNS)
    left = area.x + (about.first - 1) * (column + _GAP * one)
    right = area.x + about.last * column + (about.last - 1) * _GAP * one
    tallest = Fraction(area.height)
    if about.tallest is not None:
        tallest = min(tallest, about.tallest * one)
    if slot == "lower":
        return _box(left, area.bottom - tallest, right, area.bottom)
    return _box(left, area.y, right, area.y + tallest)


def kept_free(presenter: Presenter, canvas: Canvas, slots: Slots, titled: bool) -> Box:
    """What is kept free: a side column, or the middle of the picture over the lower third."""
    if presenter in SIDES:
        return _columns(presenter, canvas, slots, titled)
    first, last = _MIDDLE[shape(canvas)]
    area, one = callout_area(canvas, titled), unit(canvas)
    share = Fraction(area.width + _GAP * one, COLUMNS)
    bottom = canvas.height * _LOWER[shape(canvas)]
    top = area.y + (_HEADROOM * one if shape(canvas) == "tall" else 0)
    return _box(area.x + (first - 1) * share, top, area.x + last * share - _GAP * one, bottom)


def _less(whole: Box, kept: Box, slot: SlotName, gap: Fraction) -> Box | None:
    """The best part of a region that leaves a box alone: under it for the lower third, over it for the top,
    else beside it where that is widest."""
    if not whole.overlaps(kept):
        return whole
    over = _Edges(whole.x, whole.y, whole.right, kept.y - gap)
    under = _Edges(whole.x, kept.bottom + gap, whole.right, whole.bottom)
    left = _Edges(whole.x, whole.y, kept.x - gap, whole.bottom)
    right = _Edges(kept.right + gap, whole.y, whole.right, whole.bottom)
    sides = sorted((left, right), key=lambda edges: edges.left - edges.right)
    orders = {"lower": [under, *sides], "top": [over, *sides]}
    for part in orders.get(slot, [*sides, under, over]):
        if part.right > part.left and part.bottom > part.top:
            return _box(*part)
    return None


class _Edges(NamedTuple):
    """The sides of a part of the picture, which may turn out to be empty."""

    left: Fraction | int
    top: Fraction | int
    right: Fraction | int
    bottom: Fraction | int


def _box(left: Fraction | int, top: Fraction | int, right: Fraction | int, bottom: Fraction | int) -> Box:
    x, y = (round(Fraction(edge) / 2) * 2 for edge in (left, top))
    x_end, y_end = (round(Fraction(edge) / 2) * 2 for edge in (right, bottom))
    return Box(x, y, x_end - x, y_end - y)

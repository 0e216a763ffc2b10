"""Places on the canvas: inside title-safe, on even edges, never one over another, off the presenter."""

from itertools import combinations
from typing import get_args

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from studio.drawing.themes.theme import default_theme
from studio.project.episode_values import Canvas, read_canvas
from studio.timeline.kind import Extent
from studio.timeline.layout import (
    NoRoom,
    Presenter,
    Wanted,
    burnt_boxes,
    callout_area,
    kept_free,
    place,
    region,
    strip_box,
    title_safe,
    unit,
)
from studio.timeline.slots import SLOTS, SlotName
from studio.timeline.state import Box

SLATE = default_theme().slots
CANVASES = [
    read_canvas(f"{size} @ 30") for size in ("1920x1080", "1280x720", "1080x1920", "1080x1080", "3840x2160")
]
WIDE, TALL, SQUARE = CANVASES[0], CANVASES[2], CANVASES[3]
PRESENTERS: list[Presenter | None] = [None, *get_args(Presenter)]

asked = st.tuples(
    st.integers(0, 100), st.integers(1, 100), st.sampled_from(SLOTS), st.integers(8, 40), st.integers(0, 50)
)


def wanted(
    canvas: Canvas, callouts: list[tuple[int, int, SlotName, int, int]], presenter: Presenter | None = None
) -> list[Wanted]:
    """(start, length, slot, least, how much more is wanted) as the planner asks for them."""
    found = []
    for start, length, slot, least, more in callouts:
        beside = {
            other[2]
            for other in callouts
            if other[2] in ("left", "right") and other[0] < start + length and start < other[0] + other[1]
        }
        room = region(slot, canvas, SLATE, presenter=presenter, beside=beside)
        if isinstance(room, Box):
            found.append(Wanted("sign", ((start, start + length),), slot, room, Extent(least, least + more)))
    return found


def inside(box: Box, area: Box) -> bool:
    return area.x <= box.x and area.y <= box.y and box.right <= area.right and box.bottom <= area.bottom


def only(canvas: Canvas, *callouts: tuple[int, int, SlotName, int, int]) -> list[Box]:
    boxes = place(wanted(canvas, list(callouts)), canvas)
    assert all(isinstance(box, Box) for box in boxes)
    return boxes  # type: ignore[return-value]


@given(st.sampled_from(CANVASES), st.lists(asked, max_size=5), st.sampled_from(PRESENTERS))
def test_what_is_on_screen_together_never_overlaps(
    canvas: Canvas, callouts: list[tuple[int, int, SlotName, int, int]], presenter: Presenter | None
) -> None:
    asking = wanted(canvas, callouts, presenter)
    boxes = place(asking, canvas)
    for one, box in zip(asking, boxes, strict=True):
        if isinstance(box, Box):
            assert inside(box, callout_area(canvas)) and inside(box, one.region)
            assert box.height >= one.extent.least * unit(canvas) - 2
    placed = [(one, box) for one, box in zip(asking, boxes, strict=True) if isinstance(box, Box)]
    for (one, box), (two, other) in combinations(placed, 2):
        if one.meets(two):
            assert not box.overlaps(other)


@given(st.sampled_from(CANVASES), st.sampled_from(SLOTS), st.sampled_from(get_args(Presenter)), st.booleans())
def test_no_slot_reaches_into_where_the_presenter_stands(
    canvas: Canvas, slot: SlotName, presenter: Presenter, titled: bool
) -> None:
    found = region(slot, canvas, SLATE, presenter=presenter, titled=titled)
    assume(isinstance(found, Box))
    assert isinstance(found, Box)
    assert not found.overlaps(kept_free(presenter, canvas, SLATE, titled))


def test_three_at_once_on_a_tall_picture_are_refused_for_what_it_is() -> None:
    found = region("card", TALL, SLATE, beside=("left", "right"))
    assert isinstance(found, NoRoom) and "columns" in found.sentence


def test_the_presenters_own_column_is_refused_with_a_remedy() -> None:
    found = region("right", WIDE, SLATE, presenter="right")
    assert isinstance(found, NoRoom) and "other than 'right'" in found.sentence


@pytest.mark.parametrize("canvas", [WIDE, TALL, SQUARE], ids=lambda canvas: canvas.text)
def test_somebody_in_the_middle_keeps_the_lower_third_for_callouts(canvas: Canvas) -> None:
    lower = region("lower", canvas, SLATE, presenter="middle")
    assert isinstance(lower, Box)
    assert lower.width == callout_area(canvas).width
    assert lower.y >= canvas.height * 0.55


def test_a_card_gives_way_to_a_column_that_shows_at_the_same_time() -> None:
    card, left = only(WIDE, (0, 9, "card", 20, 0), (0, 9, "left", 20, 0))
    assert card.x > left.right
    (alone,) = only(WIDE, (0, 9, "card", 20, 0))
    assert alone.x == left.x


def test_slots_lie_on_twelve_columns_with_even_gutters() -> None:
    left, right = only(WIDE, (0, 9, "left", 20, 0), (0, 9, "right", 20, 0))
    area, gutter = callout_area(WIDE), 2 * unit(WIDE)
    column = (area.width - 11 * gutter) / 12
    assert left.x == area.x and right.right == area.right
    assert left.width == right.width == pytest.approx(float(4 * column + 3 * gutter), abs=2)


@pytest.mark.parametrize("titled", [True, False])
@pytest.mark.parametrize("canvas", CANVASES, ids=lambda canvas: canvas.text)
def test_furniture_lies_outside_the_room_for_callouts_and_inside_title_safe(
    canvas: Canvas, titled: bool
) -> None:
    name, clock = burnt_boxes(canvas)
    for box in (name, clock, strip_box(canvas)):
        assert inside(box, title_safe(canvas))
        assert not box.overlaps(callout_area(canvas, titled))
    assert not name.overlaps(clock)


def test_title_safe_is_ninety_per_cent_of_a_wide_picture() -> None:
    # SMPTE ST 2046-1 and EBU R 95: 90 % of width and height (from memory).
    assert title_safe(WIDE) == Box(96, 54, 1728, 972)


def test_a_portrait_picture_keeps_clear_of_the_buttons_of_players() -> None:
    # Common practice: the lowest 20 % and the right 12 % stay free.
    area = title_safe(TALL)
    assert area.bottom <= 1920 * 0.8 and area.right <= round(1080 * 0.88 / 2) * 2


def test_lower_callouts_stack_upwards_in_the_order_written() -> None:
    first, second = only(WIDE, (0, 9, "lower", 20, 0), (0, 9, "lower", 20, 0))
    assert second.bottom < first.y


def test_top_callouts_and_columns_stack_downwards_in_the_order_written() -> None:
    for slot in ("top", "left"):
        first, second = only(TALL, (0, 9, slot, 12, 0), (0, 9, slot, 12, 0))  # type: ignore[arg-type]
        assert first.bottom < second.y


def test_a_column_stands_over_what_lies_along_the_bottom() -> None:
    lower, left = only(WIDE, (0, 9, "lower", 20, 0), (0, 9, "left", 20, 0))
    assert left.bottom < lower.y


def test_callouts_that_hand_over_to_one_another_do_not_climb() -> None:
    handing = [(start, 9, "lower", 30, 0) for start in (0, 8, 16, 24, 32, 40)]
    boxes = only(WIDE, *handing)  # type: ignore[arg-type]
    assert [box.y for box in boxes] == [boxes[0].y, boxes[1].y] * 3


def test_callouts_at_different_times_may_share_a_place() -> None:
    first, second = only(WIDE, (0, 9, "lower", 20, 0), (9, 9, "lower", 20, 0))
    assert first == second


def test_where_all_cannot_be_as_tall_as_they_want_each_is_as_tall_as_it_must_be() -> None:
    first, second = only(WIDE, (0, 9, "lower", 30, 50), (0, 9, "lower", 30, 50))
    assert first.height == second.height == 30 * 8
    (alone,) = only(WIDE, (0, 9, "lower", 30, 50))
    assert alone.height == 80 * 8


def test_too_much_at_once_is_said_with_a_remedy() -> None:
    crowd = wanted(WIDE, [(0, 9, "lower", 60, 0)] * 3)
    refused = [box for box in place(crowd, WIDE) if isinstance(box, NoRoom)]
    assert refused and refused[0].sentence.startswith("sign has no room beside sign")
    assert "'when'" in refused[0].sentence


@pytest.mark.parametrize("slot", ["card", "top"])
def test_what_is_left_beside_somebody_in_the_middle_is_no_card_and_no_strip(slot: SlotName) -> None:
    assert isinstance(region(slot, WIDE, SLATE, presenter="middle"), NoRoom)

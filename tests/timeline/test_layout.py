"""Places on the canvas: inside title-safe, on even edges, never one over another."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.project.episode_values import Canvas, read_canvas
from studio.timeline.layout import (
    NoRoom,
    Wanted,
    burnt_boxes,
    callout_area,
    place,
    strip_box,
    title_safe,
)
from studio.timeline.state import Box

CANVASES = [
    read_canvas(f"{size} @ 30") for size in ("1920x1080", "1280x720", "1080x1920", "1080x1080", "3840x2160")
]

wanted = st.builds(
    lambda start, length, height, slot: Wanted(start, start + length, height, slot),
    st.integers(0, 100),
    st.integers(1, 100),
    st.integers(8, 90),
    st.sampled_from(["lower", "card"]),
)


def inside(box: Box, area: Box) -> bool:
    return area.x <= box.x and area.y <= box.y and box.right <= area.right and box.bottom <= area.bottom


@given(st.sampled_from(CANVASES), st.lists(wanted, max_size=5))
def test_what_is_on_screen_together_never_overlaps(canvas: Canvas, callouts: list[Wanted]) -> None:
    boxes = place(callouts, canvas)
    for n, box in enumerate(boxes):
        if isinstance(box, NoRoom):
            continue
        assert inside(box, callout_area(canvas))
        for m, other in enumerate(boxes[:n]):
            if isinstance(other, Box) and callouts[n].meets(callouts[m]):
                assert not box.overlaps(other)


@pytest.mark.parametrize("canvas", CANVASES, ids=lambda canvas: canvas.text)
def test_furniture_lies_outside_the_room_for_callouts_and_inside_title_safe(canvas: Canvas) -> None:
    name, clock = burnt_boxes(canvas)
    for box in (name, clock, strip_box(canvas)):
        assert inside(box, title_safe(canvas))
        assert not box.overlaps(callout_area(canvas))
    assert not name.overlaps(clock)


def test_title_safe_is_ninety_per_cent_of_a_wide_picture() -> None:
    # SMPTE ST 2046-1 and EBU R 95: 90 % of width and height (from memory).
    assert title_safe(CANVASES[0]) == Box(96, 54, 1728, 972)


def test_a_portrait_picture_keeps_clear_of_the_buttons_of_players() -> None:
    # Common practice: the lowest 20 % and the right 12 % stay free.
    area = title_safe(CANVASES[2])
    assert area.bottom <= 1920 * 0.8 and area.right <= round(1080 * 0.88 / 2) * 2


def test_lower_callouts_stack_upwards_in_the_order_written() -> None:
    first, second = place([Wanted(0, 9, 20, "lower"), Wanted(0, 9, 20, "lower")], CANVASES[0])
    assert isinstance(first, Box) and isinstance(second, Box)
    assert second.bottom < first.y


def test_callouts_at_different_times_may_share_a_place() -> None:
    first, second = place([Wanted(0, 9, 20, "lower"), Wanted(9, 18, 20, "lower")], CANVASES[0])
    assert first == second


def test_too_much_at_once_is_said_with_a_remedy() -> None:
    crowd = [Wanted(0, 9, 60, "lower")] * 3
    refused = [box for box in place(crowd, CANVASES[0]) if isinstance(box, NoRoom)]
    assert refused and "'when'" in refused[0].sentence

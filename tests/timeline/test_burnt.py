"""The row along the top: name, scratch voice and timecode side by side, inside title-safe, off every callout."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest

from studio.project.episode_values import Canvas, read_canvas
from studio.timeline.burnt import SCRATCH, burnt_layers, burnt_over, scratch_layer
from studio.timeline.layout import callout_area, title_safe
from studio.timeline.state import Box

CANVASES = [
    read_canvas(f"{size} @ 30") for size in ("1920x1080", "1080x1920", "1080x1080", "640x360", "3840x2160")
]
canvases = pytest.mark.parametrize("canvas", CANVASES, ids=[canvas.text for canvas in CANVASES])


def inside(box: Box, area: Box) -> bool:
    return box.x >= area.x and box.y >= area.y and box.right <= area.right and box.bottom <= area.bottom


@canvases
def test_a_scratch_voice_is_said_inside_title_safe_and_over_no_callout(canvas: Canvas) -> None:
    layer = scratch_layer(90, canvas)
    for each in (*burnt_over(burnt_layers(1, "hook", 300, canvas), layer, canvas), layer):
        assert inside(each.box, title_safe(canvas))
        for titled in (True, False):
            assert not each.box.overlaps(callout_area(canvas, titled))


@canvases
def test_it_is_said_in_every_frame_in_which_it_speaks_and_in_none_after(canvas: Canvas) -> None:
    states = scratch_layer(90, canvas).states
    assert states[0].start == 0 and states[-1].end == 90
    assert all(one.end == two.start for one, two in pairwise(states))
    assert {state.look for state in states} == {SCRATCH}
    assert all(state.opacity > 0 for state in states) and states[0].opacity == 1


@canvases
def test_in_the_rough_cut_name_voice_and_timecode_stand_side_by_side(canvas: Canvas) -> None:
    burnt, voice = burnt_layers(1, "hook", 300, canvas), scratch_layer(90, canvas)
    name, beside, seconds, counts = burnt_over(burnt, voice, canvas)
    assert (seconds, counts) == burnt[1:]
    assert name.content == burnt[0].content and beside.content == voice.content
    assert beside.box.width == voice.box.width
    assert name.box.right < beside.box.x < beside.box.right <= counts.box.x
    assert name.box.width > 2 * beside.box.width or canvas.width <= canvas.height


@canvases
def test_without_a_scratch_voice_the_row_is_as_it_was(canvas: Canvas) -> None:
    burnt = burnt_layers(1, "hook", 300, canvas)
    assert burnt_over(burnt, None, canvas) == burnt
    assert burnt_over((), None, canvas) == ()
    assert not any(one.box.overlaps(two.box) for one, two in combinations(burnt, 2))


def test_a_clip_without_the_row_has_the_words_alone() -> None:
    layer = scratch_layer(90, CANVASES[0])
    assert burnt_over((), layer, CANVASES[0]) == (layer,)

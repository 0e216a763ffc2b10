"""The pictures of a draft clip say that a scratch voice speaks, over all else and for as long as it does."""

from __future__ import annotations

from types import SimpleNamespace as Fake

import pytest

from studio.project.episode_values import read_canvas
from studio.render.clips import chunks_for
from studio.timeline.burnt import SCRATCH, burnt_layers, scratch_layer
from studio.timeline.furniture import Backdrop, Strip
from studio.timeline.state import Box, Layer, State

CANVAS = read_canvas("640x360 @ 30")
FRAMES, SPOKEN = 300, 100
GROUND = Layer(Backdrop.kind, Backdrop("", ""), Box(0, 0, 640, 360), (State(0, FRAMES, None),))
STRIP = Layer(Strip.kind, Strip(8), Box(32, 330, 576, 10), (State(0, FRAMES, 1),))


def looks(burnt: bool, scratch: Layer | None) -> list[list[str]]:
    """What lies over the ground in each chunk of a clip, lowest first."""
    segment = Fake(
        camera=None,
        frames=FRAMES,
        ground=GROUND,
        layers=(STRIP,),
        burnt=burnt_layers(1, "hook", FRAMES, CANVAS),
        scratch=scratch,
    )
    chunks = chunks_for(Fake(canvas=CANVAS), segment, burnt, Fake())
    return [[str(layer.states[0].look) for layer in chunk.layers] for chunk in chunks]


def test_a_scratch_voice_is_marked_in_the_chunks_in_which_it_speaks() -> None:
    assert looks(False, scratch_layer(SPOKEN, CANVAS)) == [["1", SCRATCH], ["1"], ["1"]]


def test_in_the_rough_cut_it_is_marked_beside_name_and_timecode() -> None:
    first, second, _ = looks(True, scratch_layer(SPOKEN, CANVAS))
    assert first == ["1", "01 hook", SCRATCH, "00:00:00:", "00"]
    assert SCRATCH not in second and "01 hook" in second


@pytest.mark.parametrize("burnt", [True, False])
def test_where_nobody_speaks_by_machine_nothing_is_marked(burnt: bool) -> None:
    assert not any(SCRATCH in shown for shown in looks(burnt, None))

from __future__ import annotations

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.map.here import Here, moments
from studio.music.place import Span

BLOCKS = [Span(F(0), F(8)), Span(F(8), F(24)), Span(F(32), F(40))]
WHOLE = Span(F(-1), F(40))
EDGES = st.lists(st.fractions(-4, 44, max_denominator=8), min_size=2, max_size=2, unique=True).map(sorted)


@given(EDGES)
def test_the_still_is_inside_what_it_lights_and_inside_what_is_heard(edges: list[F]) -> None:
    sounds = Span(*edges)
    found = moments(BLOCKS, WHOLE, sounds, None)
    heard = WHOLE.intersection(sounds)
    if heard is None or not heard.length:
        return
    at = found.still_at
    assert at is not None and heard.start <= at <= heard.end
    if found.still.blocks:
        (number,) = found.still.blocks
        assert BLOCKS[number].start < at < BLOCKS[number].end
    else:
        assert not any(block.contains(at) for block in BLOCKS)


def test_on_a_border_the_still_is_from_the_block_that_begins() -> None:
    assert moments(BLOCKS, WHOLE, Span(F(0), F(16)), None).still == Here((1,))
    assert moments(BLOCKS, WHOLE, Span(F(0), F(16)), None).still_at == F(12)


def test_without_sound_what_is_meant_is_lit_and_no_pointer_stands() -> None:
    found = moments(BLOCKS, WHOLE, None, Span(F(4), F(10)))
    assert (found.still, found.default, found.still_at) == (Here((0, 1)), Here((0, 1)), None)

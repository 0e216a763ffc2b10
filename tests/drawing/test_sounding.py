from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.sounding import sounding

moments = st.integers(0, 24).map(lambda eighths: Fraction(eighths, 2))
stretches = st.tuples(moments, st.integers(1, 6).map(Fraction)).map(lambda one: (one[0], one[0] + one[1]))


@given(st.lists(stretches, max_size=12), st.lists(moments, max_size=6))
def test_one_pass_finds_what_looking_at_every_thing_at_every_moment_finds(
    things: list[tuple[Fraction, Fraction]], more: list[Fraction]
) -> None:
    edges = sorted({*more, *(at for one in things for at in one)})
    expected = [
        (start, end, sorted(one for one in things if one[0] <= start < one[1]))
        for start, end in pairwise(edges)
    ]
    found = [(start, end, sorted(held)) for start, end, held in sounding(things, edges, lambda one: one)]
    assert found == expected


def test_what_began_before_the_first_edge_sounds_on() -> None:
    (only,) = sounding([(Fraction(0), Fraction(4))], [Fraction(2), Fraction(3)], lambda one: one)
    assert only == (2, 3, ((0, 4),))

"""Lines that leave out where something stands."""

from math import dist

from hypothesis import given
from hypothesis import strategies as st
from pytest import approx

from studio.drawing.voices.slanted import outside

coordinates = st.integers(0, 100).map(float)
points = st.tuples(coordinates, coordinates)


@given(points, points, st.tuples(points, points))
def test_what_is_left_and_what_is_cut_make_up_the_line(
    one: tuple[float, float],
    two: tuple[float, float],
    corners: tuple[tuple[float, float], tuple[float, float]],
) -> None:
    (left, right), (top, bottom) = (sorted(pair) for pair in zip(*corners, strict=True))
    parts = list(outside(one, two, [(left, top, right, bottom)]))
    for start, end in parts:
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        assert not (left + 1e-6 < middle[0] < right - 1e-6 and top + 1e-6 < middle[1] < bottom - 1e-6)
        assert dist(one, middle) + dist(middle, two) == approx(dist(one, two))
    assert sum(dist(*part) for part in parts) <= dist(one, two) + 1e-6


def test_a_sign_in_the_middle_leaves_two_stretches() -> None:
    assert list(outside((0, 0), (10, 0), [(4, -1, 6, 1)])) == [((0, 0), (4, 0)), ((6, 0), (10, 0))]
    assert list(outside((0, 0), (10, 0), [(4, 1, 6, 2)])) == [((0, 0), (10, 0))]

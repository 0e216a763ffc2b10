from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.notation.line_names import name_middles

heights = st.lists(st.floats(0, 100), min_size=1, max_size=8).map(sorted)


@given(heights)
def test_names_that_have_room_never_touch_and_stay_within_their_limits(wished: list[float]) -> None:
    pitch, limits = 10.0, (0.0, 100.0)
    found = name_middles(wished, pitch, limits)
    assert all(two - one >= pitch - 1e-9 for one, two in pairwise(found))
    assert found[0] >= pitch / 2 - 1e-9 and found[-1] <= 100 - pitch / 2 + 1e-9


def test_names_that_do_not_touch_stay_beside_their_lines() -> None:
    assert name_middles([20, 40, 60], 10, (0, 100)) == [20, 40, 60]

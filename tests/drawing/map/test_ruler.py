from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.map.ruler import ruler
from studio.music.place import Span

from .song import TIME

WHOLE = Span(F(-1), TIME.bar_start(19))
MOMENTS = st.fractions(WHOLE.start, WHOLE.end, max_denominator=48)


@given(MOMENTS)
def test_by_time_a_moment_stands_where_its_second_does(at: F) -> None:
    first, last = TIME.seconds(WHOLE.start), TIME.seconds(WHOLE.end)
    wanted = (TIME.seconds(at) - first) / (last - first)
    assert ruler(TIME, WHOLE, "time").share(at) == pytest.approx(float(wanted), abs=1e-12)


def test_by_bars_every_bar_is_as_long_whatever_its_meter() -> None:
    found = ruler(TIME, WHOLE, "bars")
    widths = {
        round(found.share(TIME.bar_start(bar + 1)) - found.share(TIME.bar_start(bar)), 9)
        for bar in range(1, 19)
    }
    assert len(widths) == 1
    # The pickup is one of four beats.
    assert found.share(F(0)) == pytest.approx(widths.pop() / 4)


@given(MOMENTS, MOMENTS, st.sampled_from(["time", "bars"]))
def test_later_is_further_right(one: F, two: F, scale: str) -> None:
    found = ruler(TIME, WHOLE, scale)  # type: ignore[arg-type]
    early, late = sorted((one, two))
    assert 0 <= found.share(early) <= found.share(late) <= 1
    assert found.share(early) < found.share(late) or early == late


def test_what_lies_outside_stands_at_the_end() -> None:
    found = ruler(TIME, TIME.bars(3, 4), "time")
    assert (found.share(F(0)), found.share(F(60))) == (0.0, 1.0)


@given(MOMENTS, MOMENTS, st.sampled_from(["time", "bars"]))
def test_legs_join_and_are_where_the_ruler_says(one: F, two: F, scale: str) -> None:
    found = ruler(TIME, WHOLE, scale)  # type: ignore[arg-type]
    span = Span(*sorted((one, two)))
    legs = found.legs(span, 100.0, 800.0, 7.0)
    assert (legs[0].start, legs[-1].end) == (span.start, span.end)
    for leg in legs:
        assert leg.at == pytest.approx((100 + 800 * found.share(leg.start), 7))
        middle = (leg.start + leg.end) / 2
        assert (leg.at[0] + leg.to[0]) / 2 == pytest.approx(100 + 800 * found.share(middle), abs=1e-6)
    assert all(a.end == b.start and a.to == b.at for a, b in pairwise(legs))

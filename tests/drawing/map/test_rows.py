from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.map.rows import broken
from studio.drawing.map.ruler import ruler

from .song import TIME, facts

WHOLE = facts().whole
FOUND = ruler(TIME, WHOLE, "time")
STARTS = [TIME.bar_start(bar) for bar in range(1, 19)]


@given(st.sets(st.sampled_from(STARTS), min_size=1), st.integers(1, 4))
def test_rows_follow_one_another_and_begin_with_sections(starts: set[F], count: int) -> None:
    rows = broken(FOUND, sorted(starts), count)
    assert (rows[0].start, rows[-1].end) == (WHOLE.start, WHOLE.end)
    assert all(one.end == two.start for one, two in pairwise(rows))
    assert {row.start for row in rows[1:]} <= starts
    assert len(rows) <= count


@given(st.sets(st.sampled_from(STARTS[1:]), min_size=1))
def test_no_other_break_in_two_has_a_shorter_longest_row(starts: set[F]) -> None:
    one, two = broken(FOUND, sorted(starts), 2)
    longest = max(FOUND.share(one.end), 1 - FOUND.share(two.start))
    assert longest <= min(max(FOUND.share(cut), 1 - FOUND.share(cut)) for cut in starts) + 1e-12

"""Chapter marks: the first at 0:00, ascending, ten seconds each (common practice)."""

import itertools
import re
from fractions import Fraction as F
from types import SimpleNamespace as Fake

from hypothesis import given
from hypothesis import strategies as st

from studio.handoff.chapters import SHORTEST_SECONDS, chapter_text, chapters


def episode(*seconds: int) -> Fake:
    segments, at = [], 0
    for number, length in enumerate(seconds):
        segments.append(Fake(id=f"s{number}", title=f"Part {number}", start=at * 30, end=(at + length) * 30))
        at += length
    return Fake(segments=tuple(segments), canvas=Fake(rate=F(30)), frames=at * 30)


@given(st.lists(st.integers(1, 90), min_size=1, max_size=12))
def test_chapters_are_long_enough_and_start_at_nought(lengths: list[int]) -> None:
    plan = episode(*lengths)
    marks = chapters(plan)
    starts = [mark.start for mark in marks]
    assert starts[0] == 0
    assert all(b - a >= SHORTEST_SECONDS for a, b in itertools.pairwise(starts))
    assert len(marks) == 1 or sum(lengths) - starts[-1] >= SHORTEST_SECONDS


def test_lines_read_as_video_sites_want_them() -> None:
    lines = chapter_text(chapters(episode(12, 70, 3600, 15))).splitlines()
    assert lines == ["0:00 Part 0", "0:12 Part 1", "1:22 Part 2", "1:01:22 Part 3"]
    assert all(re.fullmatch(r"(\d+:)?\d+:\d\d .+", line) for line in lines)


def test_segments_that_share_a_chapter_have_the_title_of_the_first_of_them() -> None:
    # A hook of 4 s before the welcome, and a last word of 5 s: who jumps there meets the first of each pair.
    assert chapter_text(chapters(episode(4, 20, 30, 5))).splitlines() == ["0:00 Part 0", "0:24 Part 2"]
    assert [mark.title for mark in chapters(episode(6, 6, 6, 40, 12))] == ["Part 0", "Part 2", "Part 4"]

"""Loops in a chart: where they go round and begin again."""

from studio.theory.harmony.key_loops import find_loops
from tests.theory.charts import chart


def loops(bars: str, *openings: int) -> tuple[list[int], list[int], list[int]]:
    found = find_loops([at.chord for at in chart(bars).chords], [0, *openings])
    return sorted(found.round), sorted(found.inside), sorted(found.again)


def test_a_loop_of_four() -> None:
    assert loops("Am F C G Am F C G") == ([0, 4], [1, 2, 3, 4, 5, 6, 7], [4, 5, 6, 7])


def test_a_broken_third_time_is_inside() -> None:
    assert loops("C F C F C G") == ([0, 2, 4], [1, 2, 3, 4], [2, 3, 4])


def test_what_is_not_repeated_is_no_loop() -> None:
    assert loops("C Am F G C Am Dm G") == ([], [], [])
    assert loops("E7 E7 E7 E7") == ([], [], [])


def test_four_chords_alone_are_a_loop_written_once() -> None:
    assert loops("Am F C G") == ([], [1, 2, 3], [])
    assert loops("Am F C Am") == ([], [], [])


def test_a_loop_begins_where_its_section_does() -> None:
    assert loops("G D G C G C", 1)[0] == [2, 4]
    assert loops("D G C G C D D", 1)[0] == [1, 3]
    assert loops("Am F C G Am F C G C G Am F C G Am F", 8)[0] == [0, 4, 8, 12]

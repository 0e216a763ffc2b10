"""Harmonic rhythm: counted by hand."""

import pytest

from studio.theory.progression.pace import harmonic_pace
from tests.theory.charts import COMMON_TIME, readings


@pytest.mark.parametrize(
    ("bars", "chords", "every", "quicker"),
    [
        ("A D E A", 1, 1, []),
        ("| A | D | A | E A |", 1, 1, [(4, 4, 2)]),
        ("| A D | E A | D A | E |", 2, 1, []),
        ("A A D D A A E E", 1, 2, []),
        ("A A A A", 1, 4, []),
        ("| A | D | E A | D A | A D E A |", 1, 1, [(3, 4, 2), (5, 5, 4)]),
        ("| A A | D D |", 1, 1, []),
        # held over the bar line: bar 2 has E and D
        ("| A . E . | . . D . | A | A D |", 2, 1, []),
        ("| N.C. | A | D |", 1, 1, []),
    ],
)
def test_pace(bars: str, chords: int, every: int, quicker: list[tuple[int, int, int]]) -> None:
    found = harmonic_pace(readings(bars, "A"), COMMON_TIME)
    assert (found.chords, found.bars) == (chords, every)
    assert [(one.first, one.last, one.chords) for one in found.quicker] == quicker


@pytest.mark.parametrize(
    ("bars", "reason"),
    [
        ("A", "The bar has one chord."),
        ("A D E A", "Every bar has one chord."),
        ("| A D | E A |", "Every bar has two chords."),
        ("| A | D | A | E A |", "3 of 4 bars have one chord."),
        ("A A A A", "Most chords stay for 4 bars."),
    ],
)
def test_reasons(bars: str, reason: str) -> None:
    assert harmonic_pace(readings(bars, "A"), COMMON_TIME).reason == reason


def test_nothing_has_no_pace() -> None:
    assert harmonic_pace((), COMMON_TIME).chords == 0
    assert harmonic_pace(readings("N.C. N.C.", "A"), COMMON_TIME).chords == 0

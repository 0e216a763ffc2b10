"""Loops, and the words that are made of them."""

import pytest

from studio.theory.harmony.reading import Reading
from studio.theory.progression.loops import smallest_loop
from studio.theory.wording import progression_words
from tests.theory.charts import readings


@pytest.mark.parametrize(
    ("bars", "expected", "times", "length", "whole"),
    [
        ("A E F#m D A E F#m D", "I V vi IV", 2, 16, True),
        ("A E F#m D A E F#m D A E", "I V vi IV", 2, 16, False),
        ("A E F#m D", "I V vi IV", 1, 16, True),
        ("A A D A A A D A", "I IV I", 2, 16, True),
        ("A A A A", "I", 4, 4, True),
        ("| A E | A E | A E |", "I V", 3, 4, True),
        ("| A E | A E | A D |", "I V I V I IV", 1, 12, True),
        # where chords are struck does not matter, only what sounds when
        ("| A . . D | A A A D |", "I IV", 2, 4, True),
        # a turn that is twice as slow is no repetition
        ("| A D | A D | A | D |", "I IV I IV I IV", 1, 16, True),
    ],
)
def test_smallest_loop(bars: str, expected: str, times: int, length: int, whole: bool) -> None:
    loop = smallest_loop(readings(bars, "A"))
    assert (" ".join(loop.numerals), loop.times, loop.length, loop.whole) == (expected, times, length, whole)


def test_nothing_is_no_loop() -> None:
    nothing: tuple[Reading, ...] = ()
    assert smallest_loop(nothing).times == 0
    assert progression_words(nothing) == "N.C."

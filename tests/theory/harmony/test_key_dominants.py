"""Modulation to the dominant and back: handbooks of harmony, "Modulation to closely related keys" (common practice).

The charts are our own.
"""

from fractions import Fraction

import pytest

from studio.theory.harmony.keys import infer_keys
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reading import Reading
from tests.theory.charts import chart
from tests.theory.harmony.test_key_pivots import heard

BINARY = "F | Bb | C7 | F | Dm | G7 | C | C | Am | F | C/G . G7 . | C | C7 | F | Gm . C7 . | F"
ROUNDED = (
    "D | A/C# . Bm . | G . A . | D | D/F# . G . | A7 . D . | Bm . E7 . | A | "
    "A | D/A . A . | F#m . Bm . | E7 . A . | A7 . D/F# . | G . Em . | D/A . A7 . | D"
)
HYMN = "G . D G | C G D . | G Em A7 D | G/B D/A A7 D | D7 . G C | G/D D7 G E7/G# | Am D7/F# G C | G/D D7 G ."


def read(bars: str) -> tuple[Reading, ...]:
    song = chart(bars)
    return read_chart(song, [(one.span.start, one.key) for one in infer_keys(song)])


@pytest.mark.parametrize(
    ("song", "keys"),
    [
        (BINARY, [("F major", 1), ("C major", 5), ("F major", 13)]),
        (ROUNDED, [("D major", 1), ("A major", 7), ("D major", 13)]),
        (HYMN, [("G major", 1), ("D major", Fraction(13, 4)), ("G major", 5)]),
    ],
)
def test_a_stretch_that_closes_in_the_dominant_is_in_its_key(
    song: str, keys: list[tuple[str, Fraction]]
) -> None:
    assert heard(song) == keys


def test_the_key_in_the_middle_is_told_with_the_one_around_it() -> None:
    first, middle, last = infer_keys(chart(BINARY))
    assert middle.runner_up == first.key == last.key
    assert 0.5 < middle.sureness < min(first.sureness, last.sureness)


def test_the_pivot_and_the_close_are_read_in_the_new_key() -> None:
    readings = read(BINARY)
    pivot = next(reading for reading in readings if reading.pivot is not None)
    assert (str(pivot.at.chord), str(pivot.key), pivot.numeral) == ("Dm", "C major", "ii")
    assert pivot.pivot is not None and (str(pivot.pivot[0]), pivot.pivot[1]) == ("F major", "vi")
    six_four = next(reading for reading in readings if str(reading.at.chord) == "C/G")
    assert (six_four.numeral, six_four.name) == ("I6/4", "cadential six-four")


@pytest.mark.parametrize(
    ("song", "key"),
    [
        ("G | C | G | D | G | Em | A7 | D | G | C | D7 | G", "G major"),  # one V of V
        ("G Em A7 D G Em A7 D G Em A7 D C D7 G G", "G major"),  # a loop stays at home
        ("G | Em | A7 | D7 | G | Em | A7 | D7 | C | G | D7 | G", "G major"),  # D7 goes back
        ("C | F | D7 | G | C | F | D7 | G | F | G7 | C | C", "C major"),  # F denies G major
    ],
)
def test_a_dominant_of_the_dominant_makes_no_key(song: str, key: str) -> None:
    assert [str(one.key) for one in infer_keys(chart(song))] == [key]


def test_a_close_with_nothing_after_it_is_left_to_the_shares() -> None:
    """A song that ends in the dominant has not come back, and which key it is in is another question."""
    assert heard("C | F | G7 | C | Am | D7 | G | G")[0] == ("C major", 1)

"""The order of chord tones in a line, and its smallest repeating unit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord_reader import read_chord
from studio.theory.parts.figure_lines import degrees_in_order, smallest_unit
from tests.theory.parts.played import pitches


@pytest.mark.parametrize(
    ("notes", "chord", "degrees"),
    [
        ("A3 C#4 E4 A4", "A", "1 3 5 8"),
        ("E4 A4 C#5", "A", "5 8 10"),
        ("A2 E3 C#4 A4", "A", "1 5 10 15"),
        ("F#3 A3 C#4 E4", "F#m7", "1 ♭3 5 ♭7"),
        ("D3 A3 E4 F#4", "Dadd9", "1 5 9 10"),
        ("A3 D4 E4", "Asus4", "1 4 5"),
        ("G3 B3 D4 F4 Ab4", "G7b9", "1 3 5 ♭7 ♭9"),
    ],
)
def test_degrees_are_counted_on_past_the_octave(notes: str, chord: str, degrees: str) -> None:
    assert degrees_in_order(pitches(notes), read_chord(chord)) == degrees.split()


@given(st.lists(st.integers(48, 72), min_size=2, max_size=5), st.integers(2, 4), st.integers(0, 1))
def test_a_repeated_unit_is_found(unit: list[int], times: int, cut: int) -> None:
    whole = unit * times + unit[:cut]
    length, found = smallest_unit(whole)
    assert length <= len(unit)
    assert all(whole[place] == whole[place % length] for place in range(len(whole)))
    assert found == len(whole) // length


def test_a_figure_that_never_repeats_is_one_unit() -> None:
    assert smallest_unit([60, 64, 67, 72]) == (4, 1)
    assert smallest_unit([60]) == (1, 1)

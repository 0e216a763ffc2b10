from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import interval, pitch

from studio.music.pitch import NoteName, Pitch
from studio.theory.melody.interval_names import interval_name

PITCHES = st.builds(
    Pitch, st.builds(NoteName, st.sampled_from("CDEFGAB"), st.integers(-1, 1)), st.integers(2, 6)
)
"""Notes with one accidental at most: what lies five half steps off a perfect interval music21 does not name."""


def music21_name(one: Pitch, two: Pitch) -> str:
    """music21's own name of the interval, from the lower note to the higher."""
    ends = [
        pitch.Pitch(step=p.name.letter, octave=p.octave, accidental=p.name.alter if p.name.alter else None)
        for p in (one, two)
    ]
    return str(interval.Interval(*ends).name)


@given(one=PITCHES, two=PITCHES)
def test_names_are_those_that_music21_gives(one: Pitch, two: Pitch) -> None:
    if one.height == two.height and one.midi != two.midi:
        return  # a note and its own sharp: music21 tells A1 from d1 by direction, musicians say A1 either way
    low, high = sorted((one, two), key=lambda p: (p.height, p.midi))
    assert interval_name(one, two) == music21_name(low, high)


@given(one=PITCHES, two=PITCHES)
def test_an_interval_is_the_same_both_ways(one: Pitch, two: Pitch) -> None:
    assert interval_name(one, two) == interval_name(two, one)


@pytest.mark.parametrize(
    ("one", "two", "name"),
    # Any textbook of music theory; the last two are a note against its own sharp.
    [
        ("C4", "E4", "M3"),
        ("C4", "Eb4", "m3"),
        ("E4", "C5", "m6"),
        ("F4", "B4", "A4"),
        ("B4", "F5", "d5"),
        ("A4", "A4", "P1"),
        ("C4", "C5", "P8"),
        ("C4", "E5", "M10"),
        ("C4", "C#4", "A1"),
        ("C#4", "C4", "A1"),
    ],
)
def test_the_intervals_that_musicians_name(one: str, two: str, name: str) -> None:
    assert interval_name(Pitch.parse(one), Pitch.parse(two)) == name

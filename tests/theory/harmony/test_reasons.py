"""A reason never claims a note that the chord does not have."""

import pytest

from studio.music.chord_reader import read_chord
from studio.music.key import Key
from studio.theory.harmony.reasons import diatonic


@pytest.mark.parametrize("symbol", ["D7sus4", "Dsus4", "D5"])
def test_a_dominant_without_its_third_is_not_said_to_have_it(symbol: str) -> None:
    assert "F♯" not in diatonic(read_chord(symbol), Key.parse("G minor"), "harmonic")


@pytest.mark.parametrize("symbol", ["D", "D7", "F#dim7", "Gbdim7", "Bbaug"])
def test_what_has_the_raised_seventh_is_said_to(symbol: str) -> None:
    sentence = diatonic(read_chord(symbol), Key.parse("G minor"), "harmonic")
    assert sentence.endswith("belongs to G minor with its raised seventh, F♯.")

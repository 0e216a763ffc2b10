"""Chords told from tunes. The bars are our own; what musicians would call them is common practice."""

import pytest

from studio.music.chord_reader import read_chord
from studio.theory.parts.plays_chords import playing, plays_chords
from tests.theory.parts.played import BAR, played


@pytest.mark.parametrize(
    ("notes", "how"),
    [
        ("C4+E4+G4:4", "chords"),
        ("C4+E4:2 D4+G4:2", "chords"),
        ("C3 E4+G4 G2 E4+G4", "chords"),
        ("C4 E4 G4 E4", "broken chord"),
        ("C4 E4 F4 G4", "line"),
        ("F4 E4 C4:2", "line"),
        ("C4+E4 D4+F4 E4+G4 F4+A4", "line"),
        ("C4+C5 D4+D5 E4+E5:2", "line"),
        ("C3 D3 E3 A2", "line"),
        ("r:4", ""),
    ],
)
def test_one_harmony(notes: str, how: str) -> None:
    assert playing(played(notes), BAR, None, read_chord("C")) == how


def test_a_tune_that_breaks_a_chord_once_stays_a_tune() -> None:
    assert plays_chords(["line", "broken chord", "line", "chords", ""]) == (False, False, False, True, False)
    assert plays_chords(["broken chord", "line", "broken chord"]) == (True, False, True)

"""Chords told from tunes. The bars are our own; what musicians would call them is common practice."""

import pytest

from studio.music.chart import Chart
from studio.music.chord_reader import read_chord
from studio.theory.parts.plays_chords import carries_a_tune, playing, plays_chords
from tests.theory.charts import chart
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


@pytest.mark.parametrize(
    ("notes", "tune"),
    [
        ("E4 F4 G4:2 A4 G4 F4:2", True),
        ("C4 E4 G4 E4 D4 C4 B3 C4", True),
        ("C4+E4+G4:2 C4+E4+G4:2 C4+F4+A4:2 C4+F4+A4:2", False),
        ("C4 E4 G4 E4 F4 A4 C5 A4", False),
        ("C4+E4 D4+F4 E4+G4:2 F4+A4 E4+G4 F4+A4:2", True),
        ("", False),
    ],
)
def test_a_tune_is_a_line_over_most_of_the_chords(notes: str, tune: bool) -> None:
    """Chords, struck or broken, accompany: common practice."""
    assert carries_a_tune(played(notes), chart("C F")) == tune


def test_without_a_chart_what_is_struck_together_tells() -> None:
    assert carries_a_tune(played("C4 E4 G4 E4"), Chart(()))
    assert not carries_a_tune(played("C4+E4 G4 C4+E4"), Chart(()))


def test_the_upper_hand_tells() -> None:
    right, left = played("E4 F4 G4:2"), played("C3+E3+G3:4", 2)
    assert carries_a_tune((*left, *right), chart("C"))

"""Chords that a line spells, and tunes that spell none. The bars are our own; what they are called, common practice."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord_reader import read_chord
from studio.theory.parts.figures import figure_over
from studio.theory.parts.spelled_chords import degrees_in_order, smallest_unit
from studio.theory.wording.parts import figure_words
from tests.theory.parts.played import BAR, eighths, pitches, played


@pytest.mark.parametrize(
    ("notes", "chord", "degrees"),
    [
        ("A3 C#4 E4 A4", "A", "1 3 5 1"),
        ("E4 A4 C#5", "A", "5 1 3"),
        ("A2 E3 A3 C4 E4 G4", "Am7", "1 5 1 ♭3 5 ♭7"),
        ("F#3 A3 C#4 E4", "F#m7", "1 ♭3 5 ♭7"),
        ("D3 A3 E4 F#4", "Dadd9", "1 5 9 3"),
        ("A3 D4 E4", "Asus4", "1 4 5"),
        ("G3 B3 D4 F4 Ab4", "G7b9", "1 3 5 ♭7 ♭9"),
    ],
)
def test_degrees_are_those_that_players_say(notes: str, chord: str, degrees: str) -> None:
    """1 to 7 in every octave, and 9 for an added ninth."""
    assert degrees_in_order(pitches(notes), read_chord(chord)) == degrees.split()


@pytest.mark.parametrize(
    ("chord", "notes", "words"),
    [
        ("Cadd9", "C3 G3 C4 D4 E4 D4 C4 G3", "Cadd9 arpeggio, rising and falling 1–5–1–9–3–9–1–5"),
        ("Am7", "A2 E3 A3 C4 E4 G4 E4 C4", "Am7 arpeggio, rising and falling 1–5–1–♭3–5–♭7–5–♭3"),
        ("G/B", "B2 G3 B3 D4 G4 D4 B3 G3", "G/B arpeggio, rising and falling 3–1–3–5–1–5–3–1"),
        ("A", "A3 C#4 E4 G4", "A7 arpeggio, rising 1–3–5–♭7"),
        ("D7", "A2 C3 E3 G3", "Am7 arpeggio, rising 1–♭3–5–♭7"),
        ("D7", "A3 D4 F#4 A3 D4 F#4", "D7 arpeggio, rising 5–1–3"),
        ("G", "C4 E4 G4 C4 E4 G4", "C arpeggio, rising 1–3–5"),
    ],
)
def test_a_chord_is_broken(chord: str, notes: str, words: str) -> None:
    assert figure_words(figure_over(eighths(notes), BAR, chord=read_chord(chord))) == words


@pytest.mark.parametrize(
    ("chord", "notes"),
    [
        ("C", "F4:1 E4:1 C4:2"),
        ("Am", "D5:1/2 C5:1/2 A4:1 C5:1/2 A4:1/2"),
        ("F", "C5 A4 A4 C5"),
        ("F", "A4:1 C5:1 r:1 D5:1/2 C5:1/2"),
        ("D7", "C5 A4 G4 A4"),
        ("D7", "C5:1 A4:1 C5:1/2 D5:1 A4:1/2"),
        ("D7", "F5 D5 A4 C5"),
        ("G", "G5 E5 D5 C5"),
        ("Dm7", "D4 F4 A4 B4"),
    ],
)
def test_a_tune_is_no_chord(chord: str, notes: str) -> None:
    """Sung lines: F E C over C is no Fmaj7(no3), D C A C over Am no D7(no3)."""
    assert figure_words(figure_over(played(notes), BAR, chord=read_chord(chord))) == "single line"


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

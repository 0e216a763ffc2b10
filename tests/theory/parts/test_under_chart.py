"""Voicings that stand for the chart's chord. Rootless voicings are those of books on jazz piano (from memory)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord_reader import read_chord
from studio.music.pitch import Pitch
from studio.theory.parts.under_chart import chord_under
from tests.theory.parts.played import pitches

ROOTLESS = [
    ("Dm7", "F4 A4 C5 E5", "Dm9"),
    ("Dm9", "C4 E4 F4 A4", "Dm9"),
    ("G7", "F4 A4 B4 E5", "G13"),
    ("G7", "B3 E4 F4 A4", "G13"),
    ("Cmaj7", "E4 G4 B4 D5", "Cmaj9"),
    ("Cmaj7", "E4 G4 B4", "Cmaj7"),
    ("F#7", "A#3 C#4 E4 G4", "F♯7♭9"),
    ("C6", "A3 C4 E4 G4", "C6/A"),
]


@pytest.mark.parametrize(("symbol", "notes", "name"), ROOTLESS)
def test_it_has_the_name_of_the_chart(symbol: str, notes: str, name: str) -> None:
    assert str(chord_under(pitches(notes), read_chord(symbol))) == name


@pytest.mark.parametrize(
    ("symbol", "notes", "why"),
    [
        ("F#m", "A3 C#4 E4", "a triad has no seventh that would tell it"),
        ("Dm7", "A3 C4 E4 G4", "the third is missing"),
        ("Dm7", "F4 A4 D5", "the seventh is missing"),
        ("Dm7", "F4 C5", "two notes are too few"),
        ("Dm7", "F#4 A4 C5 E5", "the third is another"),
        ("G7", "F4 Ab4 C5 Eb5", "another chord"),
    ],
)
def test_it_is_a_chord_of_its_own(symbol: str, notes: str, why: str) -> None:
    assert chord_under(pitches(notes), read_chord(symbol)) is None, why
    assert chord_under(pitches(notes), None) is None


@given(st.sampled_from(ROOTLESS), st.sampled_from([(1, 2), (2, 3), (3, 5), (-1, -2), (7, 12)]))
def test_transposing_the_music_transposes_the_chord(
    case: tuple[str, str, str], move: tuple[int, int]
) -> None:
    symbol, notes, _ = case
    here = chord_under(pitches(notes), read_chord(symbol))
    moved: list[Pitch] = [pitch.transposed(*move) for pitch in pitches(notes)]
    assert here is not None
    assert chord_under(moved, read_chord(symbol).transposed(*move)) == here.transposed(*move)

"""Words for figures, voicings and sounding chords, as they stand on screen."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord_reader import read_chord
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.parts.against_chart import against_chart
from studio.theory.parts.figures import figure_over
from studio.theory.parts.sounding import sounding_over
from studio.theory.parts.voicings import voicing_at, voicing_of
from studio.theory.wording.parts import (
    doubling_words,
    figure_words,
    hands_words,
    inversion_words,
    played_words,
    sounding_words,
    spread_words,
    voicing_missing_words,
    voicing_words,
)
from tests.theory.charts import chart
from tests.theory.parts.played import BAR, eighths, pitches, played


@pytest.mark.parametrize(
    ("notes", "words"),
    [
        ("F#3 A3 C#4 F#4", "F♯m arpeggio, rising 1–♭3–5–1"),
        ("C5 G4 E4 C4", "C arpeggio, falling 1–5–3–1"),
        ("C4 E4 G4 C5 G4 E4", "C arpeggio, rising and falling 1–3–5–1–5–3"),
        ("C4 G4 E4 G4 C4 G4 E4 G4", "Alberti bass on C, 1–5–3–5"),
        ("C4 G4 E4 C5 C4 G4 E4 C5", "C broken, 1–5–3–1"),
        ("A2+E3 A2+E3 D3+A3 E3+B3", "power chords A5–D5–E5"),
        ("C4+E4+G4 F4+A4+C5", "block chords C–F"),
        ("C4+C5 D4+D5 E4+E5", "in octaves"),
        ("C2 C3 C2 C3", "broken octaves"),
        ("A2+E3 A2+F#3 A2+E3 A2+F#3", "A5 shuffle, fifth and sixth by turns"),
        ("C4+E4 D4+F4 E4+G4", "parallel thirds"),
        ("C4 D4 E4 F4", "scale run, rising"),
        ("C4 B3 Bb3 A3", "chromatic run, falling"),
        ("A4 A4 A4", "repeated note"),
        ("A4", "single line"),
        ("C3 E4+G4 G2 E4+G4", "oom-pah on C"),
        ("C3 E4+G4 E4+G4", "oom-pah-pah on C"),
        ("C3 E4+G4", "C: bass note, then chord"),
        ("C4+E4 G4 D4 F4+B4 A4", "no plain figure"),
        ("r", "nothing sounds here"),
    ],
)
def test_figures(notes: str, words: str) -> None:
    assert figure_words(figure_over(eighths(notes), BAR)) == words


def test_degrees_far_above_the_root_are_what_a_player_says() -> None:
    """3–12–8–12 is what lies on the strings; 3–5–1–5 is what a player says (common practice)."""
    figure = figure_over(eighths("A#2 C#4 F#3 C#4 A#2 C#4 F#3 C#4"), BAR, chord=read_chord("F#/A#"))
    assert figure_words(figure) == "Alberti bass on F♯/A♯, 3–5–1–5"


def test_a_rootless_voicing_is_said_to_be_so() -> None:
    figure = figure_over(played("F4+A4+C5+E5:4"), BAR, chord=read_chord("Dm9"))
    assert figure_words(figure) == "block chords Dm9, rootless"


def test_two_notes_of_a_known_chord() -> None:
    assert (
        figure_words(figure_over(played("D3+A3:4"), BAR, chord=read_chord("Dadd9"), alone=False))
        == "1 and 5 of Dadd9"
    )


def test_walking() -> None:
    assert figure_words(figure_over(played("C3 D3 E3 A2"), BAR)) == "walking line"


@pytest.mark.parametrize(
    ("notes", "symbol", "words"),
    [
        ("C#3 A3 E4 A4", "A", "A/C♯, open, root doubled"),
        ("C#3 A3 E4 A4", "A/C#", "A/C♯, open, root doubled"),
        ("G3 C4 E4 B4", "Cmaj7", "Cmaj7/G, drop 2"),
        ("C3 C4 E4 G4", "C", "C, close over the bass, root doubled"),
        ("C4 E4 Bb4", "C7", "C7, close, no fifth"),
        ("E3 G3 B3", "Cmaj7", "Cmaj7, close, rootless"),
        ("A3", "A", "A, no chord"),
        ("", "A", "nothing sounds here"),
    ],
)
def test_voicings(notes: str, symbol: str, words: str) -> None:
    assert voicing_words(voicing_of(pitches(notes), read_chord(symbol))) == words


def test_what_is_said_of_a_voicing_besides() -> None:
    found = voicing_of(pitches("C#3 A3 E4 A4"), read_chord("A"))
    assert inversion_words(found) == "first inversion"
    assert spread_words(found) == "an octave and a sixth"
    assert [doubling_words(one) for one in found.doublings] == ["root twice"]
    assert inversion_words(voicing_of(pitches("D3 C4 E4 G4"), read_chord("C/D"))) == "second in the bass"
    assert voicing_missing_words(voicing_of(pitches("G3 C#4"), read_chord("A7"))) == "rootless, no fifth"
    silence = voicing_of([])
    assert (inversion_words(silence), spread_words(silence), hands_words(silence)) == ("", "", "")


def test_hands() -> None:
    notes = (*played("A2+E3:4", staff=2), *played("C#4+E4+A4:4", staff=1))
    assert hands_words(voicing_at(notes, F(1))) == "left A–E, right C♯–E–A"


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [("C4", "G4", "a fifth"), ("C4", "C5", "an octave"), ("C3", "E5", "two octaves and a third"),
     ("C4", "C#4", "a unison"), ("C4", "D4", "a second")],
)  # fmt: skip
def test_spreads(low: str, high: str, words: str) -> None:
    assert spread_words(voicing_of(pitches(f"{low} {high}"))) == words


@pytest.mark.parametrize(
    ("notes", "words"),
    [
        ("A3+C#4+E4:4", "A"),
        ("A3+D4+E4:2 A3+C#4+E4:2", "Asus4, then A"),
        ("C4+E4+G4:2 F4+A4+C5:2", "C, then F"),
        ("A4:4", "A, no chord"),
        ("r:4", "nothing sounds here"),
    ],
)
def test_sounding_chords(notes: str, words: str) -> None:
    assert sounding_words(sounding_over(played(notes), BAR)) == words


def test_a_suspension_by_itself_says_where_it_goes() -> None:
    sus, _ = sounding_over(played("A3+D4+E4:2 A3+C#4+E4:2"), BAR)
    assert sounding_words(sus) == "Asus4, resolving to A"
    assert sounding_words([]) == "nothing sounds here"


def test_what_contradicts_the_chart_is_said_with_it() -> None:
    same, other = against_chart(played("A3+C#4+E4:4 A3+C4+E4:4"), chart("A A"))
    assert (played_words(same), played_words(other)) == ("A", "chart A, played Am")
    (part,) = against_chart(played("C#4+E4:4"), chart("A"))
    assert played_words(part) == "part of A"


@given(st.lists(st.tuples(st.integers(36, 84), st.integers(0, 7), st.integers(1, 8)), max_size=10))
def test_there_are_words_whatever_is_played(drawn: list[tuple[int, int, int]]) -> None:
    notes = [Note(F(at, 2), F(length, 2), Pitch.from_midi(number)) for number, at, length in drawn]
    for words in (
        figure_words(figure_over(notes, BAR)),
        voicing_words(voicing_at(notes, F(1))),
        sounding_words(sounding_over(notes, BAR)),
        sounding_words(sounding_over(notes, Span(F(1), F(2)))),
    ):
        assert words
        assert words == words.strip()


def test_the_slash_of_a_six_nine_is_no_bass() -> None:
    found = voicing_of(pitches("E3 C4 G4 A4 D5"), read_chord("C6/9/E"))
    assert voicing_words(found).startswith("C6/9/E, ")

"""Chord symbols: what is read, what is refused, and where."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_qualities import ADDED, ALTERATIONS, LEFT_OUT, QUALITIES
from studio.music.chord_reader import ChordError, is_no_chord, read_chord
from studio.music.pitch import NoteName

names = st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-1, 1))
changes = st.sampled_from(
    [*ALTERATIONS, *(f"add{tone}" for tone in ADDED), *(f"no{tone}" for tone in LEFT_OUT)]
)
qualities, several = st.sampled_from(list(QUALITIES)), st.lists(changes, max_size=3)
uppers = st.none() | st.builds(Chord.of, names, qualities, several)
chords = st.builds(Chord.of, names, qualities, several, st.none() | names, uppers)


@given(chords)
def test_what_is_printed_reads_back_as_the_same_chord(chord: Chord) -> None:
    assert read_chord(chord.text) == chord
    assert read_chord(chord.text).text == chord.text
    ascii_text = chord.text.replace("♭", "b").replace("♯", "#")
    assert read_chord(ascii_text) == chord
    if chord.upper is not None:
        assert read_chord(f"({chord.text})") == chord


@pytest.mark.parametrize(
    ("text", "position", "words"),
    [
        ("", 0, "There is no chord here"),
        ("am7", 0, "roots are capitals, so write Am7."),
        ("c", 0, "write C, or Cm if minor was meant"),
        ("H7", 0, "write B for the German H"),
        ("xyz", 0, "does not start with a note"),
        ("Cmajj7", 4, "“j7” makes no sense after “Cmaj”"),
        ("Cq", 1, "“q” makes no sense after “C”"),
        ("Csus5", 4, "makes no sense"),
        ("C7b", 3, "stops too early"),
        ("Cadd", 4, "stops too early"),
        ("Cadd5", 4, "makes no sense"),
        ("C7(b9", 5, "never closed"),
        ("C7()", 3, "is empty"),
        ("C/", 2, "stops at the slash"),
        ("A/c#", 2, "Write it as a capital: C"),
        ("C/7", 2, "is not a bass note"),
        ("Cox", 2, "makes no sense"),
        ("C7b11", 3, "is no alteration"),
        ("N.C.", 0, "no chord sounds"),
        ("C 7", 1, "makes no sense"),
        ("Cm7/G/B", 5, "makes no sense"),
        ("C#maj7sus3", 9, "makes no sense"),
        ("C9sus2", 2, "makes no sense"),
        ("CM7b9q", 5, "“q” makes no sense after “CM7b9”"),
        ("C⁷q", 2, "“q” makes no sense after “C⁷”"),
        ("C07", 1, "a diminished chord is written C° or Cdim"),
        ("(G7)", 0, "starts with a bracket, which only one chord over another does"),
        ("C/G7", 3, "to set C over the chord G7, write C|G7"),
        ("Ebmaj7/Dm", 8, "write Ebmaj7|Dm"),
        ("D|", 2, "There is no chord here"),
        ("D|q", 2, "does not start with a note"),
        ("D|Cq", 3, "“q” makes no sense after “C”"),
        ("D|C|B", 3, "“|B” makes no sense after “C”"),
        ("D/E|C", 3, "The upper of two chords has no bass"),
        ("(D|C", 4, "never closed"),
        ("(D|C)q", 5, "makes no sense"),
        ("(D)|C", 3, "makes no sense"),
    ],
)
def test_a_mistake_is_pointed_at(text: str, position: int, words: str) -> None:
    with pytest.raises(ChordError) as caught:
        read_chord(text)
    assert caught.value.position == position
    assert words in str(caught.value)


@given(chords, st.integers(0, 30), st.text(max_size=3))
@example(Chord.of(NoteName("C"), "m7"), 2, "\x00")
def test_a_corrupted_symbol_is_a_chord_or_a_chord_error(chord: Chord, cut: int, junk: str) -> None:
    """Whatever is done to a symbol, the answer is a chord that prints and reads, or an error with a place in it."""
    for text in (chord.text[:cut], chord.text[:cut] + junk, chord.text[:cut] + junk + chord.text[cut:]):
        try:
            found = read_chord(text)
        except ChordError as error:
            assert 0 <= error.position <= len(text)
            assert str(error)
        else:
            assert read_chord(found.text) == found


@given(st.text(max_size=12))
def test_any_text_is_a_chord_or_a_chord_error(text: str) -> None:
    try:
        read_chord(text)
    except ChordError as error:
        assert 0 <= error.position <= len(text)


@pytest.mark.parametrize(
    "text", ["N.C.", "NC", "N.C", "n.c.", "no chord", " N.C. ", "N/C", "(N.C.)", "NC.", "tacet"]
)
def test_no_chord(text: str) -> None:
    assert is_no_chord(text)


@pytest.mark.parametrize("text", ["C", "N", "Nc7", "none"])
def test_not_no_chord(text: str) -> None:
    assert not is_no_chord(text)

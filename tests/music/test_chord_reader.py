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
chords = st.builds(
    Chord.of, names, st.sampled_from(list(QUALITIES)), st.lists(changes, max_size=3), st.none() | names
)


@given(chords)
def test_what_is_printed_reads_back_as_the_same_chord(chord: Chord) -> None:
    assert read_chord(chord.text) == chord
    assert read_chord(chord.text).text == chord.text
    ascii_text = chord.text.replace("♭", "b").replace("♯", "#")
    assert read_chord(ascii_text) == chord


# Spellings of one chord that fake books, lead sheets and jazz charts use (common practice).
SAME = {
    "C": ["Cmaj", "CM", "Cma", "CMaj", "Cmajor"],
    "Cm": ["Cmin", "Cmi", "C-", "C–", "CMin", "Cminor", "Cmi"],
    "Cmaj7": ["CΔ", "C△", "CΔ7", "CM7", "Cma7", "CMaj7", "C(maj7)"],
    "Cm7": ["C-7", "Cmin7", "Cmi7", "C–7"],
    "CmMaj7": ["Cm(maj7)", "CmM7", "C-Δ7", "CmΔ", "C-Δ", "Cmin(maj7)", "Cmmaj7"],
    "Cm7♭5": ["Cø", "Cø7", "Cm7b5", "C-7b5", "Cm7(b5)", "Cm7-5"],
    "Cdim": ["C°", "Co", "Cm(b5)", "Cº"],
    "Cdim7": ["C°7", "Co7"],
    "Caug": ["C+", "C(#5)"],
    "C7♯5": ["C+7", "Caug7", "C7#5", "C7(#5)", "C7+5", "C7+"],
    "Cmaj7♯5": ["C+maj7", "Cmaj7#5", "Cmaj7(♯5)"],
    "Csus4": ["Csus"],
    "C7sus4": ["C7sus", "Cm7sus4"],
    "C9sus4": ["C9sus", "C11sus4"],
    "C6/9": ["C69", "C6add9", "C6(9)", "CM6/9"],
    "C7♭9": ["C7b9", "C7(b9)", "C7-9"],
    "C7♯9": ["C7#9", "C7(#9)", "C7+9"],
    "C7♯11": ["C7#11", "C7+11", "C7(#11)", "C7#4"],
    "C7♭13": ["C7b13", "C7(b13)", "C7b6"],
    "C7(♭9♯11)": ["C7b9#11", "C7(b9,#11)", "C7(b9)(#11)", "C7 (b9 #11)".replace(" (", "(")],
    "C7(♯5♯9)": ["C7#5#9", "C+7#9", "C7#9#5"],
    "C7alt": ["Calt", "C7(alt)"],
    "Cadd9": ["C(add9)", "C(9)"],
    "Cadd2": ["C2"],
    "Cmadd9": ["Cm(add9)", "C-add9", "Cminadd9"],
    "C5": ["C(no3)", "Cno3", "C(omit3)"],
    "C7(no5)": ["C7no5", "C7(omit5)"],
    "C/E": ["Cmaj/E"],
    "F♯m7/E": ["F#m7/E", "F#-7/E"],
    "B♭13♯11": ["Bb13#11", "Bb13(#11)"],
}


@pytest.mark.parametrize(("printed", "written"), [(p, w) for p, many in SAME.items() for w in (p, *many)])
def test_many_spellings_one_chord(printed: str, written: str) -> None:
    assert read_chord(written).text == printed


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


@pytest.mark.parametrize("text", ["N.C.", "NC", "N.C", "n.c.", "no chord", " N.C. "])
def test_no_chord(text: str) -> None:
    assert is_no_chord(text)


@pytest.mark.parametrize("text", ["C", "N", "Nc7", "none"])
def test_not_no_chord(text: str) -> None:
    assert not is_no_chord(text)

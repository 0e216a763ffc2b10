"""Degrees of notes over chords."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_qualities import QUALITIES
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName
from studio.theory.melody.degree import degree_over

names = st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-1, 1))
chords = st.builds(Chord.of, names, st.sampled_from(list(QUALITIES)))


@pytest.mark.parametrize(
    ("note", "chord", "label", "alternative"),
    [
        # The house rule: 9 11 13 over sevenths, 2 4 6 over all other chords, the same everywhere.
        ("D", "F#m", "♭6", "♭13"), ("F", "Am", "♭6", "♭13"), ("F", "Am7", "♭13", "♭6"),
        ("D", "C", "2", "9"), ("F", "C", "4", "11"), ("A", "C", "6", "13"),
        # A tune that came out 5–4–♭3–9–1 over Em, with C as 6 over E♭ and B♭ as 9 over A♭.
        ("A", "Em", "4", "11"), ("F#", "Em", "2", "9"), ("C", "Eb", "6", "13"), ("Bb", "Ab", "2", "9"),
        ("G", "Dm7", "11", "4"), ("E", "Dm7", "9", "2"),
        ("D", "C7", "9", "2"), ("F", "C7", "11", "4"), ("A", "C7", "13", "6"),
        ("D", "C6", "2", "9"), ("D", "Csus4", "2", "9"), ("A", "Csus4", "6", "13"), ("F", "Cadd9", "4", "11"),
        ("D", "C5", "2", "9"), ("D", "C6/9", "9", "2"), ("F", "C6/9", "4", "11"),
        ("F#", "C", "♯4", "♯11"), ("F#", "Cmaj7", "♯11", "♯4"),
        ("Db", "C7", "♭9", "♭2"), ("D#", "C7", "♯9", "♯2"), ("Eb", "C7", "♭3", ""),
        # Spelling tells ♭6 from ♯5, and ♯4 from ♭5.
        ("Ab", "C", "♭6", "♭13"), ("G#", "C", "♯5", ""), ("Gb", "C", "♭5", ""),
        ("B", "C", "7", ""), ("Bb", "C", "♭7", ""), ("C#", "C", "♭2", "♯1"), ("E", "Cm", "3", ""),
        ("F", "C#m", "♭4", "♭11"),
        # Nobody says ♭1, and ♯1 only in passing: common practice.
        ("Gb", "G7", "7", "♭1"), ("G#", "G7", "♭9", "♯1"), ("C#", "C6", "♭2", "♯1"), ("Cb", "C", "7", "♭1"),
        # Chord tones have the name that the chord gives them, however they are spelled.
        ("D", "Cadd9", "9", "2"), ("D", "Csus2", "2", "9"), ("F", "Csus4", "4", "11"), ("A", "C6", "6", "13"),
        ("A", "C13", "13", "6"), ("Ab", "C7#5", "♯5", "♭6"), ("D#", "Cm", "♭3", "♯2"), ("E#", "C#", "3", ""),
        ("F", "C#", "3", "♭4"), ("Bbb", "Cdim7", "♭♭7", ""), ("E", "C", "3", ""), ("C", "C/E", "1", ""),
        # The second fact of the demonstration: the root of the bass counts as a tone of the chord.
        ("E", "D/E", "2", "9"),
    ],
)  # fmt: skip
def test_house_rule(note: str, chord: str, label: str, alternative: str) -> None:
    degree = degree_over(NoteName.parse(note), read_chord(chord))
    assert (degree.label, degree.alternative) == (label, alternative)


@given(names, names, st.sampled_from(list(QUALITIES)))
def test_over_one_quality_of_chord_names_are_all_high_or_all_low(
    one: NoteName, other: NoteName, quality: str
) -> None:
    chord = Chord.of(NoteName("C"), quality)
    found = [degree_over(name, chord) for name in (one, other)]
    high = {
        degree.label.lstrip("♭♯") in ("9", "11", "13")
        for degree in found
        if not degree.chord_tone and degree.letters in (1, 3, 5)
    }
    assert len(high) <= 1


@given(names, chords)
def test_what_sounds_in_the_chord_is_a_chord_tone(name: NoteName, chord: Chord) -> None:
    assert degree_over(name, chord).chord_tone == (name.pc in chord.pcs)


@given(names, chords, st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (5, 9), (-1, -1)]))
def test_transposing_changes_no_degree(name: NoteName, chord: Chord, interval: tuple[int, int]) -> None:
    assert degree_over(name.transposed(*interval), chord.transposed(*interval)) == degree_over(name, chord)


@given(names, chords)
def test_the_label_says_the_interval(name: NoteName, chord: Chord) -> None:
    """Generic and chromatic size agree with music21's interval from the root to the note."""
    degree = degree_over(name, chord)
    assert chord.root.transposed(degree.letters, degree.semitones) == name


def test_degrees_agree_with_music21_intervals() -> None:
    from music21 import interval, pitch

    for number, label in {"M2": "2", "m3": "♭3", "P4": "4", "A4": "♯4", "d5": "♭5", "A5": "♯5", "m6": "♭6",
                          "M6": "6", "m7": "♭7", "M7": "7", "m2": "♭2"}.items():  # fmt: skip
        for root in ("C", "F#", "B-", "E", "A-"):
            theirs = interval.Interval(number).transposePitch(pitch.Pitch(root)).name.replace("-", "b")
            chord = read_chord(root.replace("-", "b"))
            assert degree_over(NoteName.parse(theirs), chord).label == label

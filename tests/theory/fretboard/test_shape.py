"""Shapes: how they are written, what they sound, which finger is where."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord_reader import read_chord
from studio.theory.fretboard.named_tunings import STANDARD, TUNINGS
from studio.theory.fretboard.shape import Barre, Shape, read_shape

FRETS = st.lists(st.none() | st.integers(0, 24), min_size=1, max_size=8)


@given(FRETS)
def test_the_text_of_a_shape_reads_back(frets: list[int | None]) -> None:
    shape = Shape(tuple(frets))
    if len(frets) > 1 or len(shape.text) == 1:  # one string at a fret of two digits has no dash to show it
        assert read_shape(shape.text, len(frets)) == shape


@pytest.mark.parametrize(
    ("text", "frets"),
    [
        ("x32010", (None, 3, 2, 0, 1, 0)), ("X 3 2 0 1 0", (None, 3, 2, 0, 1, 0)),
        ("x-10-12-12-11-x", (None, 10, 12, 12, 11, None)), ("×,10,12,12,11,10", (None, 10, 12, 12, 11, 10)),
        ("0003", (0, 0, 0, 3)),
    ],
)  # fmt: skip
def test_shapes_as_players_write_them(text: str, frets: tuple[int | None, ...]) -> None:
    assert read_shape(text).frets == frets


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("x3201", "“x3201” gives 5 strings and there are 6: write a fret or x for each."),
        (
            "x10121211",
            "“x10121211” gives 9 strings and there are 6: "
            "write a fret or x for each, with dashes between frets of two digits.",
        ),
        ("x32o10", "String 4 of “x32o10” is “o”: write a fret, 0 for an open string or x for a silent one."),
        (
            "x-32-0-1-0-x",
            "String 2 of “x-32-0-1-0-x” is fret 32, and necks end at 24: "
            "with dashes between all strings each fret stands alone, as x-10-12-12-11-x.",
        ),
        ("  ", "There is no shape here: write a fret or x for each string, low string first, as x32010."),
    ],
)
def test_what_is_no_shape_is_said_with_its_place(text: str, says: str) -> None:
    with pytest.raises(ValueError) as caught:
        read_shape(text, 6)
    assert str(caught.value) == says


def test_what_a_shape_sounds_is_spelled_by_its_chord() -> None:
    shape, chord = read_shape("x46664"), read_chord("Db")
    assert [str(pitch) for pitch in shape.pitches(STANDARD, chord)[1:]] == ["D♭3", "A♭3", "D♭4", "F4", "A♭4"]
    assert [str(pitch) for pitch in shape.pitches(STANDARD, read_chord("C#"))[1:]] == [
        "C♯3",
        "G♯3",
        "C♯4",
        "E♯4",
        "G♯4",
    ]
    assert [tone and tone.degree for tone in shape.tones(STANDARD, chord)] == [None, "1", "5", "1", "3", "5"]


def test_a_spelling_across_the_octave_keeps_the_pitch() -> None:
    pitches = read_shape("x21102").pitches(STANDARD, read_chord("B"))
    assert [pitch and pitch.midi for pitch in pitches] == [None, 47, 51, 56, 59, 66]
    c_flat = read_shape("x24442").pitches(STANDARD, read_chord("Cb"))
    assert [(str(pitch), pitch.midi) for pitch in c_flat if pitch] == [
        ("C♭3", 47), ("G♭3", 54), ("C♭4", 59), ("E♭4", 63), ("G♭4", 66),
    ]  # fmt: skip


def test_the_bass_is_the_lowest_pitch_on_whichever_string() -> None:
    assert str(read_shape("0003").bass(TUNINGS["ukulele"])) == "C4"
    assert str(read_shape("0232").bass(TUNINGS["ukulele"])) == "D4"
    assert read_shape("xxxx").bass(TUNINGS["ukulele"]) is None


def test_a_finger_on_several_strings_is_a_barre() -> None:
    shape = Shape((1, 3, 3, 2, 1, 1), (1, 3, 4, 2, 1, 1))
    assert shape.barres == (Barre(1, 0, 5, 1),)
    assert Shape((None, 3, 2, 0, 1, 0), (0, 3, 2, 0, 1, 0)).barres == ()


def test_a_shape_has_as_many_strings_as_its_tuning() -> None:
    with pytest.raises(ValueError, match="“0003” has 4 strings, and standard tuning has 6"):
        read_shape("0003").pitches(STANDARD)

"""A person's own fingering against the chord that it is meant to be."""

from __future__ import annotations

import pytest

from studio.music.chord_reader import read_chord
from studio.theory.fretboard.given import GivenShape, judge_shape
from studio.theory.fretboard.named_tunings import STANDARD, TUNINGS
from studio.theory.fretboard.search import find_shapes
from studio.theory.fretboard.shape import read_shape


def judged(text: str, chord: str) -> GivenShape:
    return judge_shape(read_shape(text), STANDARD, read_chord(chord))


def test_a_right_shape_is_fingered_and_spelled() -> None:
    found = judged("x02220", "A")
    assert found.right
    assert [str(pitch) for pitch in found.pitches if pitch] == ["A2", "E3", "A3", "C♯4", "E4"]
    assert found.shape.fingers == (0, 0, 1, 2, 3, 0)
    assert (found.missing, found.left_out, found.foreign, found.inverted) == ((), (), (), False)


@pytest.mark.parametrize(
    ("text", "chord", "says"),
    [
        ("x02210", "A", "x02210 is not A: C is foreign to it and C♯ is missing."),
        ("x32010", "C7", "x32010 is not C7: B♭ is missing."),
        ("x32013", "Cmaj7/E", "x32013 is not Cmaj7/E: B is missing."),
        ("x32010", "C/E", "x32010 is not C/E: C is its lowest note, where E should be."),
        ("000000", "E", "000000 is not E: A, D and G are foreign to it and G♯ is missing."),
        ("x00232", "D/F#", "x00232 is not D/F♯: A is its lowest note, where F♯ should be."),
        ("xx0232", "D/C", "xx0232 is not D/C: C is missing."),
    ],
)
def test_a_wrong_one_gets_one_sentence(text: str, chord: str, says: str) -> None:
    assert judged(text, chord).complaint == says


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0-14-2-0-0-0", "0-14-2-0-0-0 is beyond a hand's reach: it spans 13 frets, from 2 to 14."),
        ("12-2-9-0-5-0", "12-2-9-0-5-0 is beyond a hand's reach: it spans 11 frets, from 2 to 12."),
    ],
)
def test_what_no_hand_can_hold_is_said(text: str, says: str) -> None:
    assert judged(text, "Em").complaint == says


@pytest.mark.parametrize(("text", "chord"), [("x-12-14-14-14-12", "A"), ("x32010", "C"), ("1x3206", "Fadd9")])
def test_a_long_hand_is_believed(text: str, chord: str) -> None:
    assert "reach" not in judged(text, chord).complaint


def test_whoever_asks_for_a_longer_reach_has_it() -> None:
    wide, chord = read_shape("1-x-x-x-x-8"), read_chord("F5")
    assert "spans 8 frets, from 1 to 8" in judge_shape(wide, STANDARD, chord).complaint
    assert judge_shape(wide, STANDARD, chord, reach=7).right


def test_an_inversion_is_let_pass_and_said() -> None:
    found = judged("332010", "C")
    assert found.right and found.inverted


def test_a_fifth_that_stays_out_is_said_but_not_wrong() -> None:
    found = judged("x32310", "C7")
    assert found.right and [str(note) for note in found.left_out] == ["G"]


def test_a_shape_for_a_long_hand_is_taken_as_it_is() -> None:
    found = judged("123456", "C")
    assert found.shape.fingers == ()  # six fingers: nobody can say which


@pytest.mark.parametrize("name", ["standard", "ukulele", "DADGAD", "mandolin"])
@pytest.mark.parametrize("chord", ["C", "Gm7", "D7sus4", "F#m7b5", "Bb/D"])
def test_what_our_search_finds_is_right(name: str, chord: str) -> None:
    for found in find_shapes(read_chord(chord), TUNINGS[name]):
        assert judge_shape(found.shape, TUNINGS[name], read_chord(chord)).right

"""Tunings: what players call them, how they are written, what a capo does."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.theory.fretboard.named_tunings import STANDARD, TUNINGS, read_tuning
from studio.theory.fretboard.tuning import Tuning, read_written_tuning


@pytest.mark.parametrize(
    ("name", "midi"),
    [
        # MIDI numbers of the open strings, common practice (from memory).
        ("standard", (40, 45, 50, 55, 59, 64)), ("guitar", (40, 45, 50, 55, 59, 64)),
        ("drop D", (38, 45, 50, 55, 59, 64)), ("dadgad", (38, 45, 50, 55, 57, 62)),
        ("open G", (38, 43, 50, 55, 59, 62)), ("Open  D", (38, 45, 50, 54, 57, 62)),
        ("half step down", (39, 44, 49, 54, 58, 63)), ("7-string", (35, 40, 45, 50, 55, 59, 64)),
        ("bass", (28, 33, 38, 43)), ("5-string bass", (23, 28, 33, 38, 43)), ("ukulele", (67, 60, 64, 69)),
        ("mandolin", (55, 62, 69, 76)), ("banjo", (67, 50, 55, 59, 62)), ("violin", (55, 62, 69, 76)),
    ],
)  # fmt: skip
def test_names_of_the_trade(name: str, midi: tuple[int, ...]) -> None:
    assert read_tuning(name).midi == midi


def test_only_ukulele_and_banjo_start_above_their_lowest_string() -> None:
    assert {name for name, tuning in TUNINGS.items() if tuning.reentrant} == {"ukulele", "banjo"}


@pytest.mark.parametrize("text", ["E2 A2 D3 G3 B3 E4", "e2, a2, d3, g3, b3, e4", " E2  A2 D3 G3 B3 E4 "])
def test_open_strings_are_read_in_any_dress(text: str) -> None:
    assert read_tuning(text).strings == STANDARD.strings


@pytest.mark.parametrize("tuning", TUNINGS.values(), ids=lambda tuning: tuning.name)
def test_the_text_of_a_tuning_reads_back(tuning: Tuning) -> None:
    assert read_written_tuning(tuning.text).strings == tuning.strings


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("E2 A2 H3", "String 3, “H3”, is not a pitch: write a note and its octave, as F#3 or Bb2."),
        ("E2 A D3", "String 2, “A”, lacks its octave: write A2 or A3; C4 is middle C."),
        ("E A D G B E", "String 1, “E”, lacks its octave: write E2 or E3; C4 is middle C."),
        ("E2 C99", "String 2, “C99”, is out of range: open strings lie between C-1 and C8."),
        ("", "There are no strings here: write the open strings from low to high, as E2 A2 D3 G3 B3 E4."),
        (" ".join(["E2"] * 13), f"“{' '.join(['E2'] * 13)}” has 13 strings, and the most is 12."),
    ],
)
def test_what_cannot_be_a_tuning_is_said_with_its_place(text: str, says: str) -> None:
    with pytest.raises(ValueError) as caught:
        read_written_tuning(text)
    assert str(caught.value) == says


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "E4 B3 G3 D3 A2 E2",
            "“E4 B3 G3 D3 A2 E2” begins with the highest string: write the lowest string first: E2 A2 D3 G3 B3 E4.",
        ),
        (
            "E2 E3 A2 A3 D3 D4 G3 G4 B3 B3 E4 E4",
            "“E2 E3 A2 A3 D3 D4 G3 G4 B3 B3 E4 E4” has its strings in pairs, and a course counts as one string: "
            "write E2 A2 D3 G3 B3 E4.",
        ),
        (
            "G3 G3 D4 D4 A4 A4 E5 E5",
            "“G3 G3 D4 D4 A4 A4 E5 E5” has its strings in pairs, and a course counts as one string: "
            "write G3 D4 A4 E5.",
        ),
    ],
)
def test_the_order_of_strings_is_minded(text: str, says: str) -> None:
    with pytest.raises(ValueError) as caught:
        read_written_tuning(text)
    assert str(caught.value) == says


def test_what_is_told_to_write_is_the_guitar() -> None:
    assert read_tuning("E2 A2 D3 G3 B3 E4").strings == read_tuning("12-string").strings == STANDARD.strings


@pytest.mark.parametrize("text", ["G4 C4 E4 A4", "G4 D3 G3 B3 D4", "D2 D3 G3 G3", "E2"])
def test_reentrant_and_single_strings_are_taken_as_written(text: str) -> None:
    assert read_written_tuning(text).text == text


def test_an_unknown_name_is_told_what_to_write() -> None:
    with pytest.raises(
        ValueError, match="“nashville” is not a tuning that is known by name: write its open strings"
    ):
        read_tuning("nashville")


@given(st.sampled_from(sorted(TUNINGS)), st.integers(0, 12))
def test_a_capo_raises_every_string(name: str, fret: int) -> None:
    tuning = TUNINGS[name]
    with_capo = tuning.with_capo(fret)
    assert with_capo.midi == tuple(midi + fret for midi in tuning.midi) == tuning.transposed(fret).midi
    assert tuple(pitch.midi for pitch in with_capo.sounding) == with_capo.midi


@pytest.mark.parametrize("fret", [-1, 13])
def test_a_capo_has_to_sit_on_the_neck(fret: int) -> None:
    with pytest.raises(ValueError, match="A capo sits on fret 1 to 12"):
        STANDARD.with_capo(fret)

"""Slash chords that sound as suspended dominants.

Common practice of jazz, gospel and soul charts: F/G and Dm7/G are other ways to write G9sus4; Levine, The Jazz
Theory Book, "Sus chords" (chapter from memory).
"""

import pytest

from studio.music.chord_reader import read_chord
from studio.theory.harmony.suspended_bass import as_suspended
from tests.theory.charts import readings


@pytest.mark.parametrize(
    ("written", "sounding"),
    [
        ("F/G", "G9sus4"), ("Dm7/G", "G9sus4"), ("F6/G", "G9sus4"), ("Fmaj7/G", "G13sus4"), ("Bbmaj9/C", "C13sus4"),
        ("Gm11/C", "C13sus4"), ("Abm6/Bb", "B♭7sus4(♭9)"), ("Dm/G", "G9(no3)"), ("Am7/D", "D9sus4"),
    ],
)  # fmt: skip
def test_chords_over_the_root_of_a_dominant(written: str, sounding: str) -> None:
    found = as_suspended(read_chord(written))
    assert found is not None
    assert found.text == sounding
    above = read_chord(written)
    assert above.pcs <= found.pcs | {(found.root.pc + 7) % 12}  # nothing that sounds is lost


@pytest.mark.parametrize(
    "written", ["F", "C/E", "C/G", "C/Bb", "Am/G", "Csus4/G", "G7/F", "Fmaj7#11/G", "C/A", "G/C"]
)
def test_inversions_and_other_basses_are_none(written: str) -> None:
    assert as_suspended(read_chord(written)) is None


@pytest.mark.parametrize(
    ("bars", "key", "at", "numeral", "runner_up"),
    [
        ("Dbmaj9 Ebm9 Gbmaj7/Ab Dbmaj9", "Db", 2, "V13sus4", "IVmaj7"),
        ("Am7 D7 Gm7/C F", "F", 2, "V9sus4", "ii7"),
        ("F/G C", "C", 0, "V9sus4", "IV"),
        ("Fmaj9 Bbmaj9/C Fmaj9", "F", 1, "V13sus4", "IVmaj9"),
        ("F C/D G", "C", 1, "V9sus4/V", "I"),
        ("F G/A Dm", "F", 1, "V9sus4/vi", ""),
    ],
)
def test_numerals(bars: str, key: str, at: int, numeral: str, runner_up: str) -> None:
    reading = readings(bars, key)[at]
    assert (reading.numeral, reading.function) == (numeral, "dominant")
    assert reading.runner_up == runner_up
    assert "suspended dominant of" in reading.reason


def test_a_tonic_over_its_second_degree_that_goes_on_up_is_no_dominant() -> None:
    """F, F/G, F/A: a bass that walks."""
    walking = readings("F F/G F/A Bb", "F")[1]
    assert (walking.numeral, walking.function) == ("I", "tonic")
    assert walking.reason.endswith("the bass is G, the second degree of the key.")


def test_an_applied_dominant_resolves_to_it() -> None:
    assert readings("D7 F/G C", "C")[0].resolved

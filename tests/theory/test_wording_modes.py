"""Words for modes, as they stand on screen."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.melody.modes import ModeReading, read_mode
from studio.theory.melody.scales import scale_named
from studio.theory.wording.modes import (
    decides_words,
    foreign_words,
    missing_words,
    mode_words,
    scale_words,
)
from tests.theory.charts import line

NAMES = ("A4", "Bb4", "B4", "C5", "C#5", "D5", "Eb5", "E5", "F5", "F#5", "G5", "G#5")


def read(notes: str, tonic: str = "A") -> ModeReading:
    return read_mode(line(notes), NoteName.parse(tonic))


@pytest.mark.parametrize(
    ("notes", "mode", "decides"),
    [
        ("A4 B4 C5 D5 E5 F5 G5", "A Aeolian", "B and F make it Aeolian"),
        ("A4 B4 C5 D5 E5 G5", "A Aeolian or Dorian", "F would make it Aeolian, F♯ Dorian"),
        ("A4 C5 E5", "A Aeolian, Dorian or Phrygian", "B♭ would make it Phrygian, F♯ Dorian"),
        ("A4 B4 D5 E5", "A, mode left open", "C or C♯, F or F♯, G or G♯ would decide"),
        ("A4 C5 D5 E5 G5", "A minor pentatonic", ""),
        ("A4 C5 D5 Eb5 E5 G5", "A minor blues", "E♭ makes it minor blues"),
        ("A4 B4 C5 D5 E5 F5 G#5", "A harmonic minor", "F and G♯ make it harmonic minor"),
        ("A4:2 C5 C#5 D5 Eb5 E5 G5", "A blues", "C and C♯ make it blues"),
        ("A4:4 B4 D5 C#5:2 E5 F#5 G5 E5 G#5 E5", "mostly A Ionian or Mixolydian", "both G and G♯ sound"),
        ("A4 B4", "A, mode left open", "C or C♯, D or D♯, F or F♯, G or G♯ would decide"),
        ("", "nothing sounds here", ""),
    ],
)
def test_the_mode_and_what_decides(notes: str, mode: str, decides: str) -> None:
    reading = read(notes)
    assert (mode_words(reading), decides_words(reading)) == (mode, decides)


def test_the_key_narrows_the_set() -> None:
    assert mode_words(read_mode(line("A4 B4 D5 E5"), Key.parse("Am"))) == "A Aeolian or Dorian"


def test_notes_outside_every_scale() -> None:
    reading = read("D4:4 E4:4 F#4:4 G4:4 A4:4 B4:4 C5:4 Bb4:2 G4:2", "D")
    assert mode_words(reading) == "mostly D Mixolydian"
    assert foreign_words(reading) == "B♭ is outside it"


def test_the_other_seventh_of_minor_is_not_foreign() -> None:
    """Minor keys have both (any harmony textbook; from memory)."""
    minor = "A4 B4 C5 D5 E5 F5 G5:2 G#5 A5:2"
    assert mode_words(read(minor)) == "A Aeolian"
    assert foreign_words(read(minor)) == "G♯ is the raised seventh of minor"
    with_another = read(f"{minor} C5:1/2 C#5:1/2 D5:2 C5:4")
    assert foreign_words(with_another) == "C♯ is outside it; G♯ is the raised seventh of minor"


def test_too_few_notes_of_no_scale_leave_it_open() -> None:
    """D♭, E♭, B♭ and B on C: four notes of a G7alt, of which no scale on C holds all."""
    reading = read("Bb4:2 Eb5:2 Db5:2 C#5 B4", "C")
    assert mode_words(reading) == "C, mode left open"
    assert {"Phrygian", "Locrian"} <= {str(one.scale) for one in reading.candidates}
    assert reading.reason == "No scale holds D♭, E♭, B♭ and B, and they are too few to tell one."


def test_missing_and_foreign_notes() -> None:
    assert missing_words(read("A4 B4 C5 D5 F5")) == "without E and G"
    assert missing_words(read("A4 B4 C5 D5 E5 F5 G5")) == ""
    assert missing_words(read("A4 C5 E5")) == "without D and G", "what all that is left open would hold"
    assert foreign_words(read("C5:2 D5 D#5:1/2 E5:1/2 F5 G5 A5 B5 C5", "C")) == "D♯ is outside it"
    assert foreign_words(read("A4")) == ""
    assert (missing_words(read("")), foreign_words(read(""))) == ("", "")


def test_a_scale_by_name() -> None:
    assert scale_words(NoteName.parse("E"), scale_named("Phrygian dominant")) == "E Phrygian dominant"


@given(
    st.lists(
        st.sampled_from(["A4", "Bb4", "B4", "C5", "C#5", "D5", "Eb5", "E5", "F5", "F#5", "G5", "G#5"]),
        max_size=10,
    )
)
def test_the_words_are_short_whatever_sounds(names: list[str]) -> None:
    """A lower third has about 42 characters a line (common practice); what decides may take two lines."""
    reading = read(" ".join(names))
    assert 0 < len(mode_words(reading)) <= 42
    assert len(decides_words(reading)) <= 84

"""What the tone reader tells of a line's mode: ornaments, blue notes, the chords. Lines are our own."""

from fractions import Fraction as F

import pytest

from studio.music.key import Key
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.modes import ModeReading, read_mode
from studio.theory.wording.modes import decides_words, foreign_words, mode_words
from tests.theory.charts import COMMON_TIME, chart, line

BEBOP = "D4 F4 A4 C5 C5:1/2 A4:1/2 Bb4:1/2 Eb5:1/2 D5 F5 F5:1/2 D5:1/2 E5:2 D#5 E5:4"
BLUES = (
    "r A4 C5:1/2 C#5:1/2 A4 C5 A4 G4 A4 E5 Eb5:1/2 D5:1/2 C5:1/2 A4:3/2 r:4 C5 A4 C5:1/2 D5 A4:1/2 C5:1/2 A4 G4:1/2 "
    "A4:2 C#5 E5 G5:1/2 F#5:1/2 E5 r:4 E5 D5 B4 G#4 F5 D5 A4 C5 A4 C5:1/2 C#5:1/2 E5 A5 E5:4"
)

BENT = (
    "r G4 Bb4 C5:1/2 Bb4:1/2 C5:1/2 Eb5:1/2 C5:1/2 Bb4:1/2 G4 r C5:1/2 Eb5:1/2 E5:1/2 G5:1/2 Bb4 C5 r:4 Eb5 C5 "
    "A4:1/2 Ab4:1/2 G4 F4 Eb4 C4:2 Eb4:1/2 E4:1/2 G4 Bb4:1/2 G4:1/2 Eb4:1/2 C4:1/2 r:4 G4 B4 D5 F5 Eb5 D5:1/2 C5:1/2 "
    "Bb4:1/2 A4 r:1/2 C5:2 Bb4:1/2 G4:1/2 Eb4:1/2 C4:1/2 r G4 Gb4:1/2 F4:1/2 Eb4"
)


def read(bars: str, notes: str, key: str, known: bool = True) -> ModeReading:
    """The mode; ``known``: with what the tone reader says."""
    home = Key.parse(key)
    told = read_melody(line(notes), chart(bars), keys=((F(0), home),), time=COMMON_TIME)
    return read_mode(line(notes), home, None, told if known else ())


def test_what_encloses_says_little_of_the_mode() -> None:
    """C–A–B♭–E♭–D over a ii–V–I in C is no Mixolydian: B♭ and E♭ only embellish."""
    bars = "Dm7 G7 Cmaj7 Cmaj7"
    assert mode_words(read(bars, BEBOP, "C", known=False)) == "C Mixolydian"
    found = read(bars, BEBOP, "C")
    assert (mode_words(found), decides_words(found)) == ("C Ionian", "B in the chords makes it Ionian")
    assert foreign_words(found) == "D♯ and B♭ are outside it"


def test_a_lowered_seventh_stays_where_nothing_has_the_other() -> None:
    """A Mixolydian tune written in A major: its short G♮ off the beat would else be taken for an ornament."""
    found = read("A5 A5", "A4 C#5 B4:1/2 A4:1/2 G4:1/2 F#4:1/2 E4 F#4 G4:1/2 A4:3/2", "A")
    assert mode_words(found) == "A Mixolydian"


def test_both_thirds_make_it_blues() -> None:
    found = read("A7 D7 A7 A7 D7 D7 A7 A7 E7 D7 A7 E7", BLUES, "A")
    assert (mode_words(found), decides_words(found)) == ("A blues", "C and C♯ make it blues")
    assert 0.7 < found.sureness < 0.95
    assert found.reason == (
        "Both thirds, C and C♯, and the lowered seventh sound, as in A blues; F only passes; "
        "G♯ is the leading note."
    )


def test_a_line_that_bends_its_third_again_and_again_is_a_blues() -> None:
    """Its E is short, its B is the leading note over G7 and its A♭ passes: blues singing, common practice."""
    found = read("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7", BENT, "C")
    assert (mode_words(found), decides_words(found)) == ("C blues", "E♭ and E make it blues")
    assert mode_words(read("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7", BENT, "C", known=False)) != "C blues"


def test_one_third_is_the_minor_blues() -> None:
    found = read("E7 A7 E7 B7", "E4 G4 A4:1/2 Bb4:1/2 A4 G4 E4 D4 E4 B4 D5 E5 D5 B4 A4:1/2 G4:1/2 E4:2", "E")
    assert mode_words(found) == "E minor blues"


def test_both_thirds_alone_are_no_blues() -> None:
    """Without the lowered fifth, or a chart that makes the third blue, as in fiddle tunes with both."""
    found = read_mode(line("A4 B4 C#5:2 D5 E5 F#5 G5 A5 C5:2 A4"), Key.parse("A"))
    assert mode_words(found) != "A blues"


@pytest.mark.parametrize(
    ("bars", "notes", "key", "mode", "decides"),
    [
        ("Am F C G", "E5:2 D5 C5 A4:4 G4:2 E4 A4 B4:4", "A minor", "A Aeolian", "F in the chords makes it Aeolian"),
        ("Am D Am D", "E5:2 D5 C5 A4:4 G4:2 E4 A4 B4:4", "A minor", "A Dorian", "F♯ in the chords makes it Dorian"),
        ("Am D F G", "E5:2 D5 C5 A4:4 G4:2 E4 A4 B4:4", "A minor", "A Aeolian or Dorian",
         "F would make it Aeolian, F♯ Dorian"),
        ("Am Em C G", "E5:2 D5 C5 A4:4 G4:2 E4 A4 B4:4", "A minor", "A Aeolian or Dorian",
         "F would make it Aeolian, F♯ Dorian"),
    ],
)  # fmt: skip
def test_a_note_of_the_chords_closes_the_set(
    bars: str, notes: str, key: str, mode: str, decides: str
) -> None:
    found = read(bars, notes, key)
    assert (mode_words(found), decides_words(found)) == (mode, decides)
    line_alone = read(bars, notes, key, known=False)
    assert mode_words(line_alone) == "A Aeolian or Dorian"
    assert found.sureness < line_alone.sureness or mode == "A Aeolian or Dorian"


def test_both_forms_of_a_degree_are_said() -> None:
    found = read_mode(line("A4:4 B4 D5 C#5:2 E5 F#5 G5 E5 G#5 E5 C5 B4"), Key.parse("A"))
    assert mode_words(found) == "mostly A Ionian or Mixolydian"
    assert [str(note) for note in found.both] == ["G", "G♯"]
    assert decides_words(found) == "both G and G♯ sound"
    assert found.reason == (
        "No scale holds every note: A Ionian holds 88 % of the time, C and G lie outside it; "
        "G and G♯ both sound."
    )

"""Words on screen."""

from fractions import Fraction

from studio.music.key import Key
from studio.theory.harmony.numerals import read_chart
from studio.theory.melody.degrees import read_melody
from studio.theory.wording import (
    degree_words,
    progression_words,
    reading_note,
)
from tests.theory.charts import chart, line, readings


def test_progressions_are_said_once_round() -> None:
    assert progression_words(readings("A E F#m D A E F#m D", "A")) == "I–V–vi–IV"
    assert progression_words(readings("N.C. A C#7 F#m N.C.", "A")) == "I–V7/vi–vi"
    assert progression_words(readings("A N.C. D", "A")) == "I–N.C.–IV"


def test_small_print_under_chords() -> None:
    notes = [reading_note(reading) for reading in readings("A C#7 F#m Em7 A7 D Dm C# D", "A")]
    assert notes == [
        "", "V of vi, resolves", "", "ii of IV", "V of IV, resolves", "", "borrowed from A minor",
        "V of vi, does not resolve", "",
    ]  # fmt: skip
    assert reading_note(readings("C C#dim7 Dm", "C")[1]) == "vii° of ii, resolves"


def test_small_print_under_a_pivot() -> None:
    keys = ((Fraction(0), Key.parse("A")), (Fraction(12), Key.parse("F# minor")))
    found = read_chart(chart("A E D C#7 F#m"), keys)
    assert reading_note(found[2]) == "pivot: IV in A major = ♭VI in F♯ minor"


def test_degrees() -> None:
    sixth, held = read_melody(line("D5:5"), chart("F#m A"))
    assert (degree_words(sixth), degree_words(held)) == ("♭6", "4")
    assert degree_words(read_melody(line("D5"), chart("N.C."))[0]) == "no chord"

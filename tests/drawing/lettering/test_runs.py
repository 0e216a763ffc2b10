from __future__ import annotations

import pytest

from studio.drawing.lettering.face import Face
from studio.drawing.lettering.runs import missing, reads_from_right, runs, without_font

FACE = Face(600, ("heebo", "noto-sans-arabic"))


def shown(text: str) -> list[str]:
    """The runs from left to right, the letters of each in the order in which they are read."""
    return [run.text for run in runs(text, FACE)]


def test_a_word_in_another_script_takes_the_first_font_that_has_it() -> None:
    latin, hebrew, space, latin_again = runs("ab שלום cd", FACE)
    assert (latin.text, hebrew.text, space.text, latin_again.text) == ("ab ", "שלום", " ", "cd")
    assert latin.font is latin_again.font is not hebrew.font
    assert hebrew.from_right and not latin.from_right


def test_spaces_and_punctuation_stay_in_the_font_around_them() -> None:
    assert shown("שלום, עולם!") == ["שלום, עולם!"]
    assert len(shown("Hear it: the tune, alone.")) == 1


@pytest.mark.parametrize(
    ("text", "left_to_right"),
    [
        # UAX #9, L2: in a line that reads from the right, what is first stands rightmost.
        ("שלום abc", ["abc", "שלום"]),
        ("נוחת על ♭6 כאן", ["כאן", "♭", "6", "נוחת על"]),
        ("אקורד F♯m7", ["F", "♯", "m7", "אקורד"]),
        ("ואז C♯°", ["C", "♯", "°", "ואז"]),
        ("מעלה V7/vi, ואז", ["ואז", ",", "V7/vi", "מעלה"]),
        ("צליל 12 ו־14", ["14", "ו־", "12", "צליל"]),
    ],
)
def test_the_trade_s_own_words_read_from_the_left_in_every_line(text: str, left_to_right: list[str]) -> None:
    assert [run.strip() for run in shown(text) if run.strip()] == left_to_right


def test_a_paragraph_reads_as_its_first_letter_does() -> None:
    # UAX #9, P2 and P3; the signs of music count as letters that read from the left.
    assert reads_from_right("שלום F♯m") and reads_from_right("(1) مرحبا")
    assert not reads_from_right("F♯m שלום") and not reads_from_right("♭6 שלום") and not reads_from_right("12")


def test_marks_stay_with_their_letter() -> None:
    # Hebrew points; q with a tilde has no letter of its own in Unicode.
    for text in ("שָׁלוֹם", "q\u0303"):
        assert [run.text for run in runs(text, FACE)] == [text]
        assert missing(text, FACE) == ""


def test_missing_characters_are_named_with_the_remedy() -> None:
    assert missing("B♭ – fine, F♯ø7 °") == ""
    assert missing("a 漢 b 漢 ☃") == "漢☃"
    assert missing("שלום") == "שלום"[:3] + "ם" and missing("שלום", FACE) == ""
    assert (
        without_font("a 漢 ☃", FACE) == "no font here has 漢 ☃; list one that does under 'fonts' in the theme"
    )
    assert without_font("All is well", FACE) == ""


def test_marks_that_nobody_sees_are_never_missing() -> None:
    assert missing("a\u200fb\u200dc\u2068d\u2069\ufe0f") == ""

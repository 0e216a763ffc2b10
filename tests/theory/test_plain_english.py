"""Plain English: what a reader of running text expects (common practice)."""

from fractions import Fraction as F

import pytest

from studio.theory.plain_english import (
    capital,
    counted,
    half_steps_words,
    interval_words,
    length_words,
    listed,
    number_word,
    plural,
    sentence,
)


@pytest.mark.parametrize(
    ("words", "said"), [([], ""), (["A"], "A"), (["A", "B"], "A and B"), (["A", "B", "C"], "A, B and C")]
)
def test_lists(words: list[str], said: str) -> None:
    assert listed(words) == said
    assert listed(words, "or") == said.replace("and", "or")


def test_numbers() -> None:
    assert [number_word(number) for number in (0, 1, 12, 13)] == ["no", "one", "twelve", "13"]
    assert [plural(number, "bar") for number in (0, 1, 2)] == ["bars", "bar", "bars"]
    assert [counted(number, "bar") for number in (0, 1, 2)] == ["0 bars", "1 bar", "2 bars"]


def test_sentences() -> None:
    assert (capital("in A"), capital("")) == ("In A", "")
    assert [sentence(words) for words in ("F makes it Aeolian", "Done.", "")] == [
        "F makes it Aeolian.",
        "Done.",
        "",
    ]


def test_distances() -> None:
    names = "a half step, a whole step, a minor third, a major third, a fourth, a tritone"
    assert [half_steps_words(distance) for distance in range(1, 7)] == names.split(", ")


def test_lengths() -> None:
    assert [length_words(length) for length in (F(1, 2), F(1), F(3, 2), F(5, 4))] == [
        "an eighth", "a quarter", "a dotted quarter", "",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("letters", "words"),
    [
        (0, "a unison"), (2, "a third"), (-5, "a sixth"), (7, "an octave"), (9, "an octave and a third"),
        (14, "two octaves"), (-16, "two octaves and a third"), (98, "14 octaves"),
    ],
)  # fmt: skip
def test_intervals(letters: int, words: str) -> None:
    assert interval_words(letters) == words

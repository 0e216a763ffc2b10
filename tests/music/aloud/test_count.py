"""How many words a script has aloud. Numbers as English says them in full, without "and" (common practice)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.aloud import for_the_ear, words_aloud
from studio.music.aloud.signs import SIGNS


def said(words: str) -> int:
    """How many words these are."""
    return len(words.split())


@pytest.mark.parametrize(
    ("script", "words"),
    [
        ("", 0),
        ("… — –", 0),
        ("It isn't, is it?", 4),
        ("F♯7/A♯", said("F sharp seven over A sharp")),
        ("I–V/vi–vi–ii–V", said("one five of six six two five")),
        ("|: C | Am :|", 3),
        ("an off-beat, half-time thing", 6),
        ("wait…then/or", 3),
        ("7 20 24 100 247", 1 + 1 + 2 + 2 + 4),
        ("1999", said("one thousand nine hundred ninety nine")),
        ("the 11th of 3.5 %", said("the eleventh of three point five percent")),
        ("0 000", 2),
        ("1" * 13, 13),
        ("e.g. www.example.com", 5),
        ("naïve façade", 2),
    ],
)
def test_words_are_counted_as_they_are_said(script: str, words: int) -> None:
    assert words_aloud(script) == words


SYMBOLS = st.sampled_from(
    [*"ABCG", "I–V/vi", "F♯7/A♯", "vii°7/ii", "♭6", "6/8", "C7(♭9,♯11)", "N.C.", "bar", *SIGNS]
)


@given(st.lists(SYMBOLS, max_size=12).map(" ".join))
def test_it_is_as_many_words_as_the_text_for_the_ear_has(script: str) -> None:
    assert words_aloud(script) == len(for_the_ear(script).replace("-", " ").split())


@given(st.text(max_size=40))
def test_what_has_letters_takes_time(script: str) -> None:
    assert (words_aloud(script) > 0) or not any(letter.isalnum() for letter in for_the_ear(script))


@given(st.text(max_size=20), st.text(max_size=20))
def test_paragraphs_add_up(one: str, two: str) -> None:
    assert words_aloud(f"{one}\n\n{two}") == words_aloud(one) + words_aloud(two)

"""What espeak-ng has to be told besides the words for the ear."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.sound.speech.machine import for_a_machine


@given(st.text(max_size=40))
def test_only_letters_that_have_a_sound_are_told(text: str) -> None:
    said = for_a_machine(text, "en")
    assert all(letter.isprintable() or letter == "\n" for letter in said)


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("the A chord goes to A", "the eh chord goes to A"),
        ("It is A over C sharp. A sharp is next.", "It is eh over C sharp. eh sharp is next."),
        ("A tune. A five leads home. A minor third.", "A tune. A five leads home. A minor third."),
        ("play A, B and A minor", "play A, B and eh minor"),
        ("A minor problem. A flat tyre. A sharp turn.",) * 2,
        ("A seven-bar phrase. A minor second. A major chord.",) * 2,
        ("A minor is next. A flat major, then A sharp.", "eh minor is next. eh flat major, then eh sharp."),
        ("A minor seven leads on.", "eh minor seven leads on."),
    ],
)
def test_in_english_the_letter_a_is_told_from_the_article(said: str, told: str) -> None:
    """espeak-ng says a lone A before a word as the article, and "eh" as the letter's name."""
    assert for_a_machine(said, "en-gb") == told
    assert for_a_machine(said, "de") == said


@pytest.mark.parametrize(
    ("script", "told"),
    [
        ("A7 is next.", "eh seven is next."),
        ("A♭5 is a chord. F/A", "eh flat five is a chord. F over eh"),
        ("A ♭5 substitution. A b5 too.", "a flat five substitution. a flat five too."),
        ("Am problems. A minor problem.", "eh minor problems. A minor problem."),
    ],
)
def test_what_is_written_as_a_symbol_is_no_article(script: str, told: str) -> None:
    assert for_a_machine(script, "en") == told

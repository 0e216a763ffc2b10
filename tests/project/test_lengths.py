"""How long a script takes to read aloud: 150 words a minute (common practice)."""

from fractions import Fraction

import pytest

from studio.project.lengths import reading_time


@pytest.mark.parametrize(
    ("script", "words"),
    [
        ("", 0),
        ("One two three.", 3),
        ("It goes {loop} and on.", 5),
        ("It goes I–♭VII–IV–iv.", 6),
        ("A pause – and then a word.", 6),
    ],
)
def test_words_are_counted_as_they_are_said(script: str, words: int) -> None:
    assert reading_time(script) == Fraction(60 * words, 150)

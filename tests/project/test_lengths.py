"""How long a script takes to read aloud: 150 words a minute (common practice)."""

from fractions import Fraction

import pytest

from studio.project.lengths import reading_time


def said(words: str) -> int:
    """How many words these are."""
    return len(words.split())


@pytest.mark.parametrize(
    ("script", "words"),
    [
        ("", 0),
        (" \n", 0),
        ("…", 1),
        ("One two three.", 3),
        ("It goes {loop} and on.", 5),
        ("It goes {degree: lead, at: 6.1}, and {{ and }.", 5),
        ("It goes I–♭VII–IV–iv.", said("It goes one flat seven four minor four")),
        ("I–V/vi–vi–ii–V", said("one five of six six two five")),
        ("F♯7/A♯, then Bm7.", said("F sharp seven over A sharp then B minor seven")),
        ("A pause – and then a word.", 6),
    ],
)
def test_words_are_counted_as_they_are_said(script: str, words: int) -> None:
    assert reading_time(script) == Fraction(60 * words, 150)

"""Keys found, in words."""

from fractions import Fraction

import pytest

from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.keys import InferredKey
from studio.theory.wording.keys import found_key_words, sureness_words


@pytest.mark.parametrize(
    ("sureness", "second", "words", "how_sure"),
    [
        (0.9, "C major", "A minor", "clear"),
        (0.6, "C major", "A minor, or C major", "likely"),
        (0.4, "C major", "perhaps A minor, or C major", "open"),
        (0.4, None, "perhaps A minor", "open"),
    ],
)
def test_doubt_is_said(sureness: float, second: str | None, words: str, how_sure: str) -> None:
    span = Span(Fraction(0), Fraction(16))
    found = InferredKey(span, Key.parse("Am"), sureness, second and Key.parse(second), "")
    assert (found_key_words(found), sureness_words(found)) == (words, how_sure)

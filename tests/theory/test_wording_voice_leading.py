"""Words for voice leading, as they stand on screen."""

from fractions import Fraction

import pytest

from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.parts.voice_leading import leadings
from studio.theory.parts.voice_leading_written import written_leading
from studio.theory.wording.voice_leading import half_step_words, leading_words, written_leading_words
from tests.theory.charts import chart

SPAN = Span(Fraction(0), Fraction(4))


@pytest.mark.parametrize(
    ("bars", "words", "half_steps"),
    [
        ("A F#m", "A and C♯ hold, E rises a whole step to F♯, 2 half steps in all", "no half steps"),
        ("F Fm", "F and C hold, A falls a half step to A♭, 1 half step in all", "A–A♭"),
        (
            "C Ab",
            "C holds, E falls a half step to E♭, G rises a half step to A♭, 2 half steps in all",
            "E–E♭, G–A♭",
        ),
        ("C6 Am7", "every note holds", "no half steps"),
    ],
)
def test_from_symbols(bars: str, words: str, half_steps: str) -> None:
    (found,) = leadings(chart(bars).chords)
    assert (leading_words(found), half_step_words(found)) == (words, half_steps)


def test_nothing_to_lead() -> None:
    assert leading_words(None) == "no two chords"


@pytest.mark.parametrize(
    ("one", "two", "words"),
    [
        (
            "G3 B3 D4 G4",
            "C3 C4 E4 C5",
            "outer voices in contrary motion, the voices move 15 half steps in all",
        ),
        (
            "E2 B2 E3",
            "G2 D3 G3",
            "outer voices in parallel, the voices move nine half steps in all, parallel fifths and octaves",
        ),
        (
            "C4 E4 G4",
            "C4 F4 A4",
            "one outer voice stays, one note held, the others move three half steps in all",
        ),
        ("C4 E4", "C4 E4", "every note holds"),
    ],
)
def test_from_written_notes(one: str, two: str, words: str) -> None:
    first, second = ([Pitch.parse(name) for name in text.split()] for text in (one, two))
    assert written_leading_words(written_leading(first, second, SPAN)) == words
    assert written_leading_words(written_leading((), (), SPAN)) == "no notes"

"""Words for common tones and half steps."""

from fractions import Fraction

import pytest

from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.parts.voice_leading import leadings
from studio.theory.parts.voice_leading_written import written_leading
from studio.theory.wording.common_tones import common_tones_words
from tests.theory.charts import chart

SPAN = Span(Fraction(0), Fraction(4))


@pytest.mark.parametrize(
    ("chords", "words"),
    [
        ("F#m D", "two common tones; C♯ rises a half step to D"),
        ("G7 C", "one common tone; half steps: B rises to C and F falls to E"),
        ("A F#m", "two common tones; no half steps"),
        ("C Abm", "no common tones; half steps: C falls to C♭, E falls to E♭ and G rises to A♭"),
        ("C C6", "three common tones; no half steps"),
        ("C6 Am7", "every note holds"),
    ],
)
def test_of_symbols(chords: str, words: str) -> None:
    (found,) = leadings(chart(chords).chords)
    assert common_tones_words(found) == words


def test_of_what_is_played() -> None:
    one, two = ([Pitch.parse(name) for name in text.split()] for text in ("G3 B3 D4 G4", "C3 C4 E4 C5"))
    said = "no notes held; B rises a half step to C; outer voices in contrary motion"
    assert common_tones_words(written_leading(one, two, SPAN)) == said
    one, two = ([Pitch.parse(name) for name in text.split()] for text in ("C3 C4 E4", "C3 C4 F4"))
    assert common_tones_words(written_leading(one, two, SPAN)) == "one note held; E rises a half step to F"

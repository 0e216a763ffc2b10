"""The last chord of a loop, a section or a whole form goes on to where that starts.

Common practice: turnarounds, and dominants that lead back to the top, are heard as such on paper too.
"""

from fractions import Fraction

import pytest

from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.numerals import read_chart
from tests.theory.charts import chart, readings


@pytest.mark.parametrize(
    ("bars", "key", "numeral", "kind", "function"),
    [
        # a bossa nova: the tritone substitute leads back to the top
        ("Fmaj7 G7 Gm7 Gb7 Fmaj7 Gb7", "F", "♭II7", "substitute dominant", "dominant"),
        # a form that starts on IV
        ("Fmaj7 G7 Em7 Am7 Dm7 G7 Cmaj7 C7", "C", "V7/IV", "applied", "dominant"),
        # i–♭VI–♭III–♭VII goes up a whole step home, the last time as every time
        ("Am F C G Am F C G", "A minor", "♭VII", "diatonic", "dominant"),
        # iii–♭iii–ii, by half steps
        ("Dm7 G7 C6 Em7 Ebm7", "C", "♭iii7", "passing", ""),
    ],
)
def test_the_last_chord_goes_on_to_the_start(
    bars: str, key: str, numeral: str, kind: str, function: str
) -> None:
    last = readings(bars, key)[-1]
    assert (last.numeral, last.kind, last.function) == (numeral, kind, function)


def test_it_is_said_and_a_little_less_sure() -> None:
    *_, within, _, last = readings("Fmaj7 G7 Gm7 Gb7 Fmaj7 Gb7", "F")
    assert within.reason == "G♭7 slides down a half step to Fmaj7, in place of its dominant."
    assert (
        last.reason == "G♭7 slides down a half step to Fmaj7, in place of its dominant when it comes round."
    )
    assert 0.6 < last.sureness < within.sureness
    assert last.at.start == 20


def test_a_section_that_nothing_follows_comes_round_to_its_own_start() -> None:
    song = chart("C F G C | Fmaj7 Em7 Dm7 C7".replace(" | ", " "))
    sections = (Span(Fraction(0), Fraction(16)), Span(Fraction(16), Fraction(32)))
    keys = ((Fraction(0), Key.parse("C")),)
    whole, second = (read_chart(song, keys, sections=known)[-1] for known in ((), sections))
    assert (whole.numeral, whole.kind) == ("I7", "blues")  # C7 and the first C of the chart are one harmony
    assert (second.numeral, second.resolved) == ("V7/IV", True)
    assert second.reason == "C7 is the dominant of F, which follows when it comes round."


def test_a_section_in_another_key_keeps_it() -> None:
    song = chart("Dm G7 C Bb7 Eb F7 Gm7 Ab7".replace(" | ", " "))
    keys = ((Fraction(0), Key.parse("C")), (Fraction(12), Key.parse("Eb")))
    found = read_chart(song, keys, sections=(Span(Fraction(12), Fraction(32)),))
    assert [str(reading.key) for reading in found] == ["C major"] * 3 + ["E♭ major"] * 5
    assert len(found) == len(song.chords)


@pytest.mark.parametrize("bars", ["C F G7 C", "C Am Dm7 G7", "Em Am B7 E", "C", "N.C.", "N.C. C G N.C."])
def test_an_end_that_makes_sense_by_itself_stays_as_it_is(bars: str) -> None:
    key = "E minor" if bars.startswith("Em") else "C"
    for reading in readings(bars, key):
        assert "comes round" not in reading.reason
    if bars == "Em Am B7 E":
        assert readings(bars, key)[-1].name == "Picardy third"

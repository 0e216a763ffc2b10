"""Words for progressions, as they stand on screen."""

import pytest

from studio.theory.progression.cadences import last_cadence
from studio.theory.progression.cliches import find_lines
from studio.theory.progression.pace import harmonic_pace
from studio.theory.progression.pedals import find_pedals
from studio.theory.progression.plain_form import plain_form
from studio.theory.progression.sequences import longest_sequence
from studio.theory.wording.progression import (
    cadence_with_chords,
    cadence_words,
    cliche_words,
    loop_name,
    loop_words,
    pace_words,
    pedal_words,
    sequence_words,
)
from tests.theory.charts import COMMON_TIME, readings


def test_loops() -> None:
    found = plain_form(readings("Am Fm C G", "C"), COMMON_TIME)
    assert (loop_words(found), loop_name(found)) == ("I–V–vi–IV begun on vi, with iv in place of IV", "")
    found = plain_form(readings("C Am F G", "C"), COMMON_TIME)
    assert (loop_words(found), loop_name(found)) == (
        "I–vi–IV–V, the doo-wop changes", "doo-wop changes (common name)",
    )  # fmt: skip
    found = plain_form(readings("C Db F# A", "C"), COMMON_TIME)
    assert (loop_words(found), loop_name(found)) == ("I–♭II–♯IV–VI", "")
    assert loop_words(plain_form(())) == "no chords"


def test_cadences() -> None:
    found = last_cadence(readings("C F G7 Am", "C"), COMMON_TIME)
    assert cadence_words(found) == "deceptive cadence"
    assert cadence_with_chords(found, COMMON_TIME) == "deceptive cadence, V7–vi, bar 4"
    assert cadence_words(last_cadence(readings("C F E7 Am", "C"), COMMON_TIME)) == "authentic cadence on vi"
    assert cadence_words(None) == cadence_with_chords(None, COMMON_TIME) == "no cadence"


def test_sequences() -> None:
    assert sequence_words(longest_sequence(readings("Am Dm G C", "C"))) == "falling fifths, 4 chords"
    assert sequence_words(longest_sequence(readings("C G Am Em F C", "C"))) == "falling thirds, 3 times"
    assert sequence_words(None) == "no sequence"


@pytest.mark.parametrize(
    ("bars", "key", "words"),
    [
        ("Am AmMaj7 Am7 Am6", "A minor", "line A–G♯–G–F♯ inside Am"),
        ("Am G F E", "A minor", "lament bass A–G–F–E"),
        ("C C/B C/A C/G", "C", "descending bass C–B–A–G under C"),
    ],
)
def test_lines(bars: str, key: str, words: str) -> None:
    assert cliche_words(find_lines(readings(bars, key))[0]) == words
    assert cliche_words(None) == "no line cliché"


def test_pedals() -> None:
    assert pedal_words(find_pedals(readings("A D/A E/A A", "A"))[0]) == "A in the bass under four chords"
    held = find_pedals(readings("Em7 G Dsus4 A7sus4", "G"))[0]
    assert pedal_words(held) == "G and D held through four chords"
    assert pedal_words(None) == "no pedal point"


@pytest.mark.parametrize(
    ("bars", "words"),
    [
        ("| A | D | A | E A |", "one chord a bar, two in bar 4"),
        (
            "| A | D | E A | D A | A | E | A | D | A D E A |",
            "one chord a bar, two in bars 3–4, four in bar 9",
        ),
        ("| A D | E A |", "two chords a bar"),
        ("A A D D", "one chord every two bars"),
        ("| A | E A | D | E A | D |", "one chord a bar, two in bars 2 and 4"),
        ("N.C.", "no chords"),
    ],
)
def test_pace(bars: str, words: str) -> None:
    assert pace_words(harmonic_pace(readings(bars, "A"), COMMON_TIME)) == words

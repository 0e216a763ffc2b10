"""Words for progressions, as they stand on screen."""

from fractions import Fraction

import pytest

from studio.music.key import Key
from studio.theory.harmony.numerals import read_chart
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
    in_style,
    loop_name,
    loop_words,
    pace_words,
    pedal_words,
    sequence_words,
)
from tests.theory.charts import COMMON_TIME, chart, readings


@pytest.mark.parametrize(
    ("bars", "key", "words", "name"),
    [
        ("Am Fm C G", "C", "I–V–vi–IV begun on vi, with iv in place of IV", ""),
        ("C Am F G", "C", "I–vi–IV–V", "doo-wop changes (common name)"),
        ("Am F C G", "A minor", "I–V–vi–IV of C major begun on vi", "four-chord loop (common name)"),
        ("Dm7 G7 C C", "C", "ii–V–I", ""),
        ("C Db F# A", "C", "I–♭II–♯IV–VI", ""),
        ("G B C Cm", "G", "I–III–IV–iv", ""),
        ("Bb F Gm Eb Bb F Eb Ebm", "Bb", "I–V–vi–IV, then I–V–IV–iv", "four-chord loop (common name)"),
        ("Am F C G Am F C G F G C C", "C", "I–V–vi–IV twice begun on vi, then IV–V–I", "four-chord loop (common name)"),
        ("A7 D7 A7 A7 D7 D7 A7 A7 E7 D7 A7 E7", "A",
         "twelve-bar blues with the quick change and a turnaround", ""),
        ("E7 E7 E7 E7", "E", "I throughout", ""),
        ("G Cadd9 Em7 Dsus4 G/B Cadd9 Em7 D Cadd9", "G", "I–IV–vi–V twice, then IV", ""),
        ("A C D F A C D E", "A", "I–♭III–IV–♭VI twice, with V in place of ♭VI the second time", ""),
        ("F Bb C7 F Dm Bb Gm C7 Am Dm F C7 F", "F", "I–IV–V–I–vi–IV–ii–V–…", ""),
        ("Am Dm7 G Cmaj7 F Bm7b5 E7 A", "A minor", "i–iv–♭VII–♭III–♭VI–ii°–V–i, with a Picardy third", ""),
        ("N.C.", "C", "no chords", ""),
    ],
)  # fmt: skip
def test_loops(bars: str, key: str, words: str, name: str) -> None:
    found = plain_form(readings(bars, key), COMMON_TIME)
    assert (loop_words(found), loop_name(found)) == (words, name)


def test_loops_in_two_keys_and_none() -> None:
    keys = ((Fraction(0), Key.parse("F")), (Fraction(16), Key.parse("G")))
    found = plain_form(read_chart(chart("F Bb C7 F C D7 G G"), keys), COMMON_TIME)
    assert loop_words(found) == "I–IV–V–I in F major, then IV–V–I in G major"
    assert loop_words(plain_form(())) == "no chords"


def test_cadences() -> None:
    found = last_cadence(readings("C F G7 Am", "C"), COMMON_TIME)
    assert cadence_words(found) == "deceptive cadence"
    assert found is not None and cadence_with_chords(found) == "deceptive cadence, V7–vi"
    assert cadence_words(last_cadence(readings("C F E7 Am", "C"), COMMON_TIME)) == "authentic cadence on vi"
    major = last_cadence(readings("Em C Am B E", "E minor"), COMMON_TIME)
    assert cadence_words(major) == "authentic cadence with a Picardy third"
    assert cadence_words(None) == "no cadence"


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
        ("| A | D | E A | D A |", "one chord a bar in half of the bars, two in bars 3–4"),
        ("| A | D | E A | D A | A D E A |", "one chord a bar most often, two in bars 3–4, four in bar 5"),
        ("N.C.", "no chords"),
    ],
)
def test_pace(bars: str, words: str) -> None:
    assert pace_words(harmonic_pace(readings(bars, "A"), COMMON_TIME)) == words


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("i–♭VII–♭VI–V", "i–VII–VI–V"),
        ("♭III–♭VII–i–V", "III–VII–i–V"),
        ("i–iv–vii°–i", "i–iv–vii°–i"),
        ("i–VI–IV–V7/♭VI", "i–♯VI–IV–V7/VI"),
        ("the Andalusian cadence", "the Andalusian cadence"),
    ],
)
def test_loops_follow_the_style_of_numerals(text: str, expected: str) -> None:
    assert in_style(text, Key.parse("A minor"), "common-practice") == expected
    assert in_style(text, Key.parse("A minor"), "relative-to-major") == text
    assert in_style(text, Key.parse("A major"), "common-practice") == text

"""Plain forms, and what is different. The forms, their rotations and their usual variations are those of the table in
Open Music Theory, "Introduction to Harmonic Schemas in Pop Music" (Hughes and Lavengood), and of "Modal Schemas"
(Lavengood); rows marked trade are common practice.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.key import Key
from studio.theory.harmony.numerals import read_chart
from studio.theory.progression.known_loops import KNOWN_LOOPS, steps_of
from studio.theory.progression.plain_distance import distance
from studio.theory.progression.plain_form import plain_form
from tests.theory.charts import COMMON_TIME, chart, readings

POP = [
    ("F C", "C", "plagal shuttle"),
    ("Bb F C", "C", "double plagal"),
    ("C Bb F", "C", "double plagal"),  # rotation I–♭VII–IV
    ("Ab Eb Bb F C", "C", "extended plagal"),
    ("C Am F G", "C", "doo-wop changes"),
    ("F G C Am", "C", "doo-wop changes"),  # rotation IV–V–I–vi
    ("Am F C G", "C", "four-chord loop"),
    ("C G Am F", "C", "four-chord loop"),  # rotations, to start on any chord
    ("F C G Am", "C", "four-chord loop"),
    ("G Am F C", "C", "four-chord loop"),
    ("F G Am C", "C", "hopscotch"),
    ("Cm Bb Ab G", "C minor", "Andalusian cadence"),  # there called lament
    ("Cm Fm Bb Eb", "C minor", "minor circle of fifths"),
    ("C C C C F F C C G F C C", "C", "twelve-bar blues"),
    ("C7 C7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", "C", "twelve-bar blues"),  # dominant sevenths in every chord
    ("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", "C", "twelve-bar blues"),  # IV in bar 2
]
MODAL = [
    ("C Bb", "C", "subtonic shuttle"),
    ("Am G", "A minor", "subtonic shuttle"),
    ("Am G F G", "A minor", "Aeolian shuttle"),
    ("F G Am", "A minor", "Aeolian cadence"),
    ("Am D", "A minor", "Dorian shuttle"),
    ("C D", "C", "Lydian shuttle"),
    ("D F C", "C", "Lydian cadence"),
]
TRADE = [
    ("Dm7 G7 Cmaj7", "C", "ii–V–I"),
    ("C Am Dm G7", "C", "turnaround"),
    ("Am Dm G C", "C", "circle progression"),
    ("C A7 D7 G7", "C", "ragtime progression"),
    ("E7 A7 D7 G7", "C", "rhythm changes bridge"),
    ("F G Em Am", "C", "royal road progression"),
    ("C G Am Em F C F G", "C", "canon progression"),
    ("Am F C G", "A minor", "four-chord loop"),
    ("| C Am | Dm G | Em Am | Dm G | C C7 | F Fm | C G | C |", "C", "rhythm changes A section"),
]


@pytest.mark.parametrize(("bars", "key", "name"), [*POP, *MODAL, *TRADE])
def test_well_known_loops(bars: str, key: str, name: str) -> None:
    found = plain_form(readings(bars, key), COMMON_TIME)
    assert found.form is not None
    assert found.form.name == name
    assert found.form.source


@pytest.mark.parametrize(
    ("bars", "key", "sentence"),
    [
        ("C G Am F", "C", "It is the four-chord loop."),
        ("Am F C G", "C", "It is the four-chord loop, begun on vi."),
        ("Am F C G", "A minor", "It is the four-chord loop of C major, begun on vi."),
        ("C G Am Fm", "C", "It is I–V–vi–IV, with iv in place of IV."),
        ("Am Fm C G", "C", "It is I–V–vi–IV, begun on vi, with iv in place of IV."),
        ("C E7 Am F", "C", "It is I–V–vi–IV, with V/vi in place of V."),
        ("C G E7 Am F", "C", "It is I–V–vi–IV, with V/vi put in before vi."),
        ("C G Am F C G Am Fm", "C", "It is I–V–vi–IV twice, with iv in place of IV the second time."),
        ("Dm7 Db7 C", "C", "It is ii–V–I, with ♭II, its tritone substitute, in place of V."),
        ("Dm7 G7 C", "C", "It is ii–V–I."),
        ("Am G F Em", "A minor", "It is i–♭VII–♭VI–V, with v in place of V."),
        ("C G Am Dm", "C", "It is I–V–vi–IV, with ii in place of IV."),
        ("C Am G F", "C", "It is I–V–vi–IV, with V and vi exchanged."),
        ("C F Am G", "C", "It is I–vi–IV–V, with vi and IV exchanged."),
        ("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", "C",
         "Its bars are those of the twelve-bar blues, with the quick change."),
        ("C", "C", "One chord holds throughout."),
        # trade: the minor circle to its end, V as a sus chord or ii or IV over 5, a loop with another end
        ("Am Dm7 G Cmaj7 F Bm7b5 E7 Am", "A minor", "It is the minor circle of fifths."),
        ("Am Dm7 G Cmaj7 F Bm7b5 E7 A", "A minor", "It is the minor circle of fifths, with a Picardy third."),
        ("Dbmaj9 Bbm11 Ebm9 Gb/Ab", "Db", "It is the turnaround."),
        ("Dbmaj9 Bbm11 Ebm9 Ab9sus4", "Db", "It is the turnaround."),
        ("| Bmaj9 | G#m11 | E6/9 | F#9sus4 | Bmaj9 | G#m11 | Emaj9 . Em6 . | B6/9 |", "B",
         "It is I–vi–IV–V twice, with iv in place of V the second time, then I."),
        ("C G D Em C G D B7 C Cm G", "G",
         "It is I–V–vi–IV twice, begun on IV, with V/vi in place of vi the second time, then IV–iv–I."),
        ("C G D Em C G D D C G D Em C G D Em", "G",
         "It is the four-chord loop four times, begun on IV, with changes."),
        ("| G | Cadd9 | Em7 | Dsus4 | G/B | Cadd9 | Em7 . D . | Cadd9 |", "G", "I–IV–vi–V comes twice, then IV."),
        ("A C D F A C D E", "A", "I–♭III–IV–♭VI comes twice, with V in place of ♭VI the second time."),
        ("F Bb F/C C7 F Bb Bb F", "F", "It does not repeat."),
    ],
)  # fmt: skip
def test_one_sentence(bars: str, key: str, sentence: str) -> None:
    assert plain_form(readings(bars, key), COMMON_TIME).reason == sentence


@pytest.mark.parametrize(
    ("bars", "key", "numerals"),
    [
        # common practice: what is called by no name is called by its numerals, every chord of it
        ("| C | Caug | C6 | C7 | F | Fm | C G7 | C |", "C", "I V/IV IV iv I V I"),
        ("| G | Gmaj7 | G7 | C | Cm | G/D D7 | G | % |", "G", "I V/IV IV iv I V I"),
        ("E5 G5 A5 C5 D5", "E minor", "i ♭III iv ♭VI ♭VII"),
        ("Am Am/G# Am/G Am/F# Fmaj7 E7 Am", "A minor", "i ♭VI V i"),
        ("D G/D A/D D", "D", "I IV V I"),
        ("C Fm C", "C", "I iv I"),
        ("| C | G7/B | C | F/C G/B |", "C", "I V I IV V"),
        ("C F G C Am F G C", "C", "I IV V I vi IV V I"),
        ("G B C Cm", "G", "I III IV iv"),
        ("C G/B Am Am/G F C/E Dm7 G", "C", "I V vi IV I ii V"),
    ],
)
def test_what_has_no_name_keeps_its_numerals(bars: str, key: str, numerals: str) -> None:
    found = plain_form(readings(bars, key), COMMON_TIME)
    assert (found.form, " ".join(found.numerals)) == (None, numerals)


@pytest.mark.parametrize(
    ("bars", "key", "name", "times", "then"),
    [
        # common practice: a loop, and then the line that leaves it
        ("C G Am F C G Am F F G C C", "C", "four-chord loop", 2, "IV V I"),
        ("Am F C G Am F C G F G C C", "C", "four-chord loop", 2, "IV V I"),
        ("| F | C/E | Dm | Bb | F/C | C7 | Dm | Bb C | F |", "F", "four-chord loop", 2, "V I"),
        ("| Am | F | C | G | Am | F | C G | Am |", "A minor", "four-chord loop", 2, "vi"),
        ("Bb F Gm Eb Bb F Eb Ebm", "Bb", "four-chord loop", 1, "I V IV iv"),
        ("Fmaj7 G7 Em7 Am7 Dm7 G7 Cmaj7 Cmaj7", "C", "royal road progression", 1, "ii V I"),
    ],
)
def test_a_loop_that_goes_on(bars: str, key: str, name: str, times: int, then: str) -> None:
    found = plain_form(readings(bars, key), COMMON_TIME)
    assert found.form is not None
    assert (found.form.name, found.times, " ".join(found.then)) == (name, times, then)


@pytest.mark.parametrize(
    ("bars", "key", "name", "differences"),
    [
        # common practice: the A section of rhythm changes in its two usual shapes, and blues with their usual turns
        ("| Bb6 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb Bb7/D | Eb Ebm6 | Bb6/F G7 | C7 F7 |", "Bb",
         "rhythm changes A section", ()),
        ("| C6 A7 | Dm7 G7 | C6 A7 | Dm7 G7 | Gm7 C7 | Fmaj7 Bb7 | Dm7 G7 | C6 |", "C",
         "rhythm changes A section", ()),
        ("| C6 A7 | Dm7 G7 | C6 A7 | Dm7 G7 | Gm7 C7 | Fmaj7 Bb7 | Dm7 G7 | C6 G7 |", "C",
         "rhythm changes A section", ("a turnaround",)),
        ("A7 D7 A7 A7 D7 D7 A7 A7 E7 D7 A7 E7", "A", "twelve-bar blues", ("the quick change", "a turnaround")),
        ("| Cm7 | Fm7 | Cm7 | % | Fm7 | % | Cm7 | % | Ab7 | G7#9 | Cm7 | Dm7b5 G7 |", "C minor",
         "twelve-bar minor blues", ("the quick change", "a turnaround")),
        ("| F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7 |", "F",
         "jazz blues", ()),
        ("C7 C7 C7 C7 F7 Fm7 C7 C7 G7 F7 C7 C7", "C", "twelve-bar blues", ("iv in bar 6",)),
    ],
)  # fmt: skip
def test_forms_in_bars(bars: str, key: str, name: str, differences: tuple[str, ...]) -> None:
    found = plain_form(readings(bars, key), COMMON_TIME)
    assert found.form is not None
    assert (found.form.name, found.differences) == (name, differences)


def test_nothing_is_read_across_a_change_of_key() -> None:
    keys = ((Fraction(0), Key.parse("F")), (Fraction(16), Key.parse("G")))
    found = plain_form(read_chart(chart("F Bb C7 F D7 G C D7 G G"), keys), COMMON_TIME)
    assert found.form is None
    assert [(str(key), " ".join(numerals)) for key, numerals in found.in_keys] == [
        ("F major", "I IV V I"),
        ("G major", "V I IV V I"),
    ]


def test_what_is_far_from_everything_is_left_alone() -> None:
    found = plain_form(readings("C Db F# A", "C"), COMMON_TIME)
    assert (found.form, found.numerals) == (None, ("I", "♭II", "♯IV", "VI"))
    assert plain_form((), COMMON_TIME).form is None


@given(st.integers(1, 3), st.integers(0, 3))
def test_repeating_a_loop_changes_nothing(times: int, turn: int) -> None:
    unit = ["C", "G", "Am", "F"]
    bars = " ".join([*unit[turn:], *unit[:turn]] * times)
    once = plain_form(readings(" ".join([*unit[turn:], *unit[:turn]]), "C"), COMMON_TIME)
    assert plain_form(readings(bars, "C"), COMMON_TIME) == once


@pytest.mark.parametrize("form", KNOWN_LOOPS, ids=lambda form: f"{form.name} {form.text}")
def test_a_form_is_no_distance_from_itself_and_some_from_any_other(form: object) -> None:
    here = next(one for one in KNOWN_LOOPS if one == form)
    steps = steps_of(here)
    assert distance(steps, steps, [False] * len(steps)) == (0.0, ())
    for other in KNOWN_LOOPS:
        if other.numerals != here.numerals:
            there = steps_of(other)
            cost, edits = distance(steps, there, [False] * len(there))
            back, _ = distance(there, steps, [False] * len(steps))
            assert cost > 0 and edits
            assert cost == pytest.approx(back)

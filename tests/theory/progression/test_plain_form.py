"""Plain forms, and what is different. The forms, their rotations and their usual variations are those of the table in
Open Music Theory, "Introduction to Harmonic Schemas in Pop Music" (Hughes and Lavengood), and of "Modal Schemas"
(Lavengood); rows marked trade are common practice.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.theory.progression.known_loops import KNOWN_LOOPS, steps_of
from studio.theory.progression.plain_distance import distance
from studio.theory.progression.plain_form import plain_form
from tests.theory.charts import COMMON_TIME, readings

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
        ("C G Am F", "C", "I–V–vi–IV, the four-chord loop."),
        ("Am F C G", "C", "I–V–vi–IV begun on vi, the four-chord loop."),
        ("Am F C G", "A minor", "I–V–vi–IV of C major begun on vi, the four-chord loop."),
        ("C G Am Fm", "C", "I–V–vi–IV, with iv in place of IV."),
        ("Am Fm C G", "C", "I–V–vi–IV begun on vi, with iv in place of IV."),
        ("C E7 Am F", "C", "I–V–vi–IV, with V/vi in place of V."),
        ("C G E7 Am F", "C", "I–V–vi–IV, with V/vi put in before vi."),
        ("C G Am F C G Am Fm", "C", "I–V–vi–IV twice, with iv in place of IV the second time."),
        ("Dm7 Db7 C", "C", "ii–V–I, with ♭II, its tritone substitute, in place of V."),
        ("Am G F Em", "A minor", "i–♭VII–♭VI–V, with v in place of V."),
        ("C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 C7", "C", "The twelve-bar blues, with IV in bar 2."),
        ("C G Am Dm", "C", "I–V–vi–IV, with ii in place of IV."),
        ("C Am G F", "C", "I–V–vi–IV, with V and vi exchanged."),
    ],
)  # fmt: skip
def test_one_sentence(bars: str, key: str, sentence: str) -> None:
    assert plain_form(readings(bars, key), COMMON_TIME).reason == sentence


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

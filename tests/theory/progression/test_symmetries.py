"""What holds for every fact about a progression: transposition moves its notes and nothing else, no chords make plain
empty results, and two hundred chords are read at once.
"""

from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chart import Chart, ChordAt
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reading import Reading
from studio.theory.parts.voice_leading import leadings
from studio.theory.progression.cadences import find_cadences
from studio.theory.progression.cliches import find_lines
from studio.theory.progression.pace import harmonic_pace
from studio.theory.progression.pedals import find_pedals
from studio.theory.progression.plain_form import plain_form
from studio.theory.progression.sequences import find_sequences
from tests.theory.charts import COMMON_TIME, chart, readings

ASKED = {
    "cadences": lambda found: find_cadences(found, COMMON_TIME),
    "sequences": find_sequences,
    "lines": find_lines,
    "pedals": find_pedals,
    "pace": lambda found: harmonic_pace(found, COMMON_TIME),
    "plain form": lambda found: plain_form(found, COMMON_TIME),
    "voice leading": lambda found: leadings([reading.at for reading in found]),
}
SYMBOLS = (
    "C",
    "Caug",
    "C6",
    "C7",
    "Am",
    "AmMaj7",
    "Am7",
    "Dm7",
    "G7",
    "F",
    "Fm",
    "Bb",
    "G/B",
    "C/G",
    "F/C",
    "E7",
    "N.C.",
)
HOME = Key(NoteName("C"), "major")


def transposed(here: Chart, letters: int, semitones: int) -> Chart:
    return Chart(
        tuple(
            ChordAt(at.start, at.length, at.chord and at.chord.transposed(letters, semitones))
            for at in here.chords
        )
    )


def bare(fact: Any, letters: int, semitones: int) -> Any:
    """A fact with its notes and keys moved, and without the sentences, which name chords."""
    if isinstance(fact, NoteName | Key) or type(fact).__name__ == "Chord":
        return fact.transposed(letters, semitones)
    if isinstance(fact, tuple | list):
        return [bare(one, letters, semitones) for one in fact]
    if is_dataclass(fact):
        kept = [field.name for field in fields(fact) if field.name not in ("reason", "inside")]
        return [(name, bare(getattr(fact, name), letters, semitones)) for name in kept]
    return fact


@pytest.mark.parametrize("asked", ASKED)
@given(
    st.lists(st.sampled_from(SYMBOLS), min_size=1, max_size=12),
    st.sampled_from(((1, 2), (2, 3), (3, 5), (4, 7), (5, 9), (6, 10))),
)
@settings(max_examples=40, deadline=None)
@pytest.mark.slow
def test_transposition(asked: str, symbols: list[str], interval: tuple[int, int]) -> None:
    here = chart(" ".join(symbols))
    before = ASKED[asked](read_chart(here, ((Fraction(0), HOME),)))
    after = ASKED[asked](
        read_chart(transposed(here, *interval), ((Fraction(0), HOME.transposed(*interval)),))
    )
    assert bare(before, *interval) == bare(after, 0, 0)


@pytest.mark.parametrize("asked", ASKED)
def test_nothing_makes_plain_results(asked: str) -> None:
    for nothing in ((), readings("N.C. N.C.", "C")):
        found = ASKED[asked](nothing)
        assert not found or found.sureness == 1.0


@given(st.sampled_from(("Am Dm G C", "Am AmMaj7 Am7 Am6", "C F/C G/C C")), st.integers(2, 4))
def test_repetition_repeats_the_facts(bars: str, times: int) -> None:
    def heard(found: tuple[Reading, ...]) -> list[tuple[str, ...]]:
        lines = [tuple(map(str, line.notes)) for line in find_lines(found)]
        return lines + [sequence.numerals for sequence in find_sequences(found)]

    once = heard(readings(bars, "C"))
    assert heard(readings(" ".join([bars] * times), "C")) == [fact for fact in once for _ in range(times)]

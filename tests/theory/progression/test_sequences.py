"""Harmonic sequences. Root patterns and names as handbooks have them: Austin Patty, "Diatonic Sequences: A Listening
Strategy" (austinpattytheory.com): falling fifths ↓5↑4, falling thirds ↓4↑2, rising fifths ↑5↓4, rising seconds ↓3↑4,
the last known as ascending 5–6. ii–V chains and chains of dominants are common practice.
"""

import pytest

from studio.theory.progression.sequences import find_sequences, longest_sequence
from tests.theory.charts import readings


@pytest.mark.parametrize(
    ("bars", "key", "name", "kind", "times"),
    [
        ("Am Dm G C", "C", "falling fifths", "diatonic", 3),
        ("C F Bdim Em Am Dm G C", "C", "falling fifths", "diatonic", 7),
        ("Am Dm G C F Bdim E Am", "A minor", "falling fifths", "diatonic", 7),
        ("C G Am Em F C", "C", "falling thirds", "diatonic", 3),
        ("C Am Dm Bdim Em C F", "C", "ascending 5–6", "diatonic", 3),
        ("F C G D A", "C", "rising fifths", "real", 4),
        ("Ab Eb Bb F C", "C", "rising fifths", "real", 4),
        ("Em7 A7 Dm7 G7 Cm7 F7", "C", "ii–V chain falling by whole step", "real", 3),
        ("Em7 A7 Ebm7 Ab7 Dm7 G7", "C", "ii–V chain falling by half step", "real", 3),
        ("Dm7 G7 Cm7 F7", "C", "ii–V chain falling by whole step", "real", 2),
        ("E7 A7 D7 G7 C", "C", "chain of dominants", "mixed", 4),
        ("C7 F D7 G E7 Am", "C", "rising by step, each chord by its dominant", "mixed", 3),
    ],
)
def test_sequences(bars: str, key: str, name: str, kind: str, times: int) -> None:
    found = longest_sequence(readings(bars, key))
    assert found is not None
    assert (found.name, found.kind, found.times) == (name, kind, times)


@pytest.mark.parametrize(
    "bars", ["C F G C", "A E F#m D A E F#m D", "C F C F C F", "C C C C C", "C G F C G F", "C"]
)
def test_plain_motion_is_no_sequence(bars: str) -> None:
    assert find_sequences(readings(bars, bars[0])) == ()


def test_where_a_sequence_lies() -> None:
    (found,) = find_sequences(readings("C F C C Am Dm G C F", "C"))
    assert (found.span.start, found.span.end) == (16, 36)
    assert found.numerals == ("vi", "ii", "V", "I", "IV")


def test_nothing_has_no_sequence() -> None:
    assert find_sequences(()) == ()
    assert longest_sequence(()) is None

"""Pedal points (common practice of handbooks): one bass under changing chords."""

import pytest

from studio.theory.progression.pedals import find_pedals
from tests.theory.charts import readings


@pytest.mark.parametrize(
    ("bars", "key", "kind", "notes", "chords"),
    [
        ("A D/A E/A A", "A", "tonic", "A", 4),
        ("F/G G7 Dm7/G G7", "C", "dominant", "G", 4),
        ("Am F/A G/A Am", "A minor", "tonic", "A", 4),
        ("Em C/E D/E Em", "C", "other", "E", 4),
        ("Em7 G Dsus4 A7sus4", "G", "held above", "G D", 4),
    ],
)
def test_pedals(bars: str, key: str, kind: str, notes: str, chords: int) -> None:
    (found,) = find_pedals(readings(bars, key))
    assert (found.kind, " ".join(map(str, found.notes)), found.chords) == (kind, notes, chords)


@pytest.mark.parametrize("bars", ["C F G C", "C/G G C", "C C C C", "C Cmaj7 C7 C6", "A N.C. D/A E/A"])
def test_no_pedal(bars: str) -> None:
    assert find_pedals(readings(bars, "C")) == ()


def test_nothing_has_no_pedal() -> None:
    assert find_pedals(()) == ()

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
    ],
)
def test_pedals(bars: str, key: str, kind: str, notes: str, chords: int) -> None:
    (found,) = find_pedals(readings(bars, key))
    assert (found.kind, " ".join(map(str, found.notes)), found.chords) == (kind, notes, chords)


@pytest.mark.parametrize(
    "bars", ["C F G C", "C/G G C", "C/G G G7 C", "F C C7 C", "C C C C", "C Cmaj7 C7 C6", "A N.C. D/A E/A"]
)
def test_no_pedal(bars: str) -> None:
    assert find_pedals(readings(bars, "C")) == ()


@pytest.mark.parametrize(
    ("bars", "key"),
    [
        ("Cm7 Fm7 Ab7 G7#9 Cm7", "C minor"),  # C and E♭, "held" in every minor blues
        ("Am AmMaj7 Am7 Am6 Fmaj7 Dm7", "A minor"),
        ("Em7 G Dsus4 A7sus4", "G"),
    ],
)
def test_notes_that_chord_symbols_share_are_no_pedal(bars: str, key: str) -> None:
    """Common practice: a pedal point is held by somebody, which chord symbols do not say."""
    assert find_pedals(readings(bars, key)) == ()


def test_nothing_has_no_pedal() -> None:
    assert find_pedals(()) == ()

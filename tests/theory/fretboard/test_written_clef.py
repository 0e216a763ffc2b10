"""Guitars and basses are read an octave above their sound (common practice, any handbook of orchestration)."""

from __future__ import annotations

import pytest

from studio.theory.fretboard.named_tunings import TUNINGS, read_tuning
from studio.theory.fretboard.written_clef import usual_clef

GUITARS = {
    *(
        "standard",
        "drop D",
        "double drop D",
        "DADGAD",
        "open G",
        "open D",
        "open E",
        "open A",
        "open C",
        "drop C",
    ),
    *("half step down", "whole step down", "7-string", "baritone"),
}
BASSES = {"bass", "bass drop D", "5-string bass", "6-string bass"}
SMALL = {"ukulele", "ukulele low G", "baritone ukulele", "mandolin", "violin"}


def test_each_named_tuning_has_the_clef_of_its_instrument() -> None:
    found = {name: usual_clef(tuning) for name, tuning in TUNINGS.items()}
    assert {name for name, clef in found.items() if clef == "treble 8vb"} == GUITARS
    assert {name for name, clef in found.items() if clef == "bass 8vb"} == BASSES
    assert {name for name, clef in found.items() if clef == "treble"} == SMALL


@pytest.mark.parametrize(
    ("written", "clef"),
    [("C2 G2 D3 A3 C4 E4", "treble 8vb"), ("D1 G1 C2 F2", "bass 8vb"), ("C2 G2 D3 A3", None)],
)
def test_written_tunings_go_by_their_pitches(written: str, clef: str | None) -> None:
    assert usual_clef(read_tuning(written)) == clef

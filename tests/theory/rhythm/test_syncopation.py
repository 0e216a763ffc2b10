"""The syncopation index against the papers that define it."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.meter import Meter
from studio.theory.rhythm.syncopation import syncopation, weights


def onsets(text: str, bars: int = 1) -> list[F]:
    return [F(at * bars, len(text)) for at, sign in enumerate(text) if sign == "x"]


@pytest.mark.parametrize(
    ("meter", "expected"),
    [
        # Fitch and Rosenfeld 2007, appendix: the tree of one bar of 4/4 at the sixteenth
        ("4/4", (0, -4, -3, -4, -2, -4, -3, -4, -1, -4, -3, -4, -2, -4, -3, -4)),
        # Longuet-Higgins and Lee's weights as Honing and Smith's implementation (2002, 2005) prints them
        ("3/4", (0, -2, -1, -2, -1, -2)),
        ("4/4", (0, -3, -2, -3, -1, -3, -2, -3)),
        ("6/8", (0, -2, -2, -1, -2, -2)),
        ("9/8", (0, -2, -2, -1, -2, -2, -1, -2, -2)),
        ("12/8", (0, -3, -3, -2, -3, -3, -1, -3, -3, -2, -3, -3)),
        ("3/2", (0, -3, -2, -3, -1, -3, -2, -3, -1, -3, -2, -3)),
    ],
)
def test_weights(meter: str, expected: tuple[int, ...]) -> None:
    assert weights(Meter.parse(meter), len(expected)) == expected


@pytest.mark.parametrize(
    ("meter", "text", "index"),
    [
        # Fitch and Rosenfeld 2007, Figure 1: (−2 − −3) + (−2 − −3) + (0 − −3) = 5
        ("4/4", "..x...x.x.x...x.", 5),
        # Longuet-Higgins and Lee 1984, Figure 9, as Honing and Smith's implementation lists it, by their strengths
        ("4/4", "xx..", 1),
        ("2/4", "x.xx..x.", 2),
        ("4/4", "x..x", 0),
        ("3/4", "x.x", 0),
        ("3/4", "xx.", 0),
    ],
)
def test_worked_examples(meter: str, text: str, index: int) -> None:
    assert syncopation(onsets(text), 1, Meter.parse(meter)).index == index


def test_the_pattern_wraps_around() -> None:
    """Fitch and Rosenfeld 2007, appendix: in a rhythm that is repeated, the last note may hold over the first beat."""
    found = syncopation(onsets("...x"), 1, Meter(4, 4))
    assert found.pairs == ((F(3, 4), F(0), 2), (F(3, 4), F(1, 2), 1)) and found.strongest == (
        F(3, 4),
        F(0),
        2,
    )


@given(st.sets(st.integers(0, 15), min_size=1), st.integers(1, 3))
def test_more_rounds_are_no_more_syncopated(places: set[int], rounds: int) -> None:
    once = [F(at, 16) for at in places]
    several = [at + bar for bar in range(rounds) for at in once]
    assert syncopation(several, rounds, Meter(4, 4)).bar == syncopation(once, 1, Meter(4, 4)).index


@given(st.sets(st.integers(0, 15)))
def test_what_is_on_the_beat_adds_none(places: set[int]) -> None:
    """Striking every beat leaves only syncopation between the beats, of one half step of the tree or two."""
    found = syncopation([F(at, 16) for at in places] + [F(at, 4) for at in range(4)], 1, Meter(4, 4))
    assert all((missed * 4).denominator != 1 for _, missed, _ in found.pairs)


def test_silence_and_what_lies_on_no_grid() -> None:
    assert syncopation([], 1, Meter(4, 4)).index == 0
    assert syncopation([F(1, 5)], 1, Meter(4, 4)).index == 0
    assert weights(Meter(7, 8), 7) == (0, -1, -1, -1, -1, -1, -1)
    with pytest.raises(ValueError, match="do not divide"):
        weights(Meter(4, 4), 6)

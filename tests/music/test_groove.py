"""Grooves as values."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.groove import Groove, Hit, join_bars
from studio.music.groove_pattern import read_groove
from studio.music.meter import Meter

FOUR = Meter(4, 4)
VERSE = read_groove({"kick": "X... ..x. x... ....", "snare": ".x.x", "hat": "xxxxxxxo"}, FOUR)


@given(st.permutations(VERSE.hits("kick")), st.permutations(["kick", "snare", "hat"]))
def test_the_order_of_hits_and_voices_is_no_matter(kicks: list[Hit], voices: list[str]) -> None:
    hits = {voice: list(VERSE.hits(voice))[::-1] for voice in voices} | {"kick": kicks}
    assert Groove.of(FOUR, 1, hits) == VERSE


def test_two_strokes_at_once_are_the_louder_one() -> None:
    groove = Groove.of(FOUR, 1, {"snare": [Hit(F(1, 4), "accent"), Hit(F(1, 4), "ghost")]})
    assert groove.hits("snare") == (Hit(F(1, 4), "accent"),)


def test_onsets_with_and_without_ghosts() -> None:
    assert VERSE.onsets("kick", "snare") == (F(0), F(1, 4), F(3, 8), F(1, 2), F(3, 4))
    assert F(7, 8) in VERSE.onsets("hat") and F(7, 8) not in VERSE.onsets("hat", ghosts=False)


def test_bars_come_apart_and_go_together() -> None:
    other = read_groove({"clap": ".x.x"}, FOUR)
    both = join_bars([VERSE, other])
    assert (both.bars, both.bar(1), both.bar(2)) == (2, VERSE, other)
    assert both.without("clap").voices == ("kick", "snare", "hat")


def test_what_no_groove_can_be() -> None:
    with pytest.raises(ValueError, match="outside of a groove of 1 bars"):
        Groove.of(FOUR, 1, {"kick": [Hit(F(1))]})
    with pytest.raises(ValueError, match="no voice"):
        Groove.of(FOUR, 1, {"trombone": [Hit(F(0))]})
    with pytest.raises(ValueError, match="one meter"):
        join_bars([VERSE, read_groove({"kick": "x.."}, Meter(3, 4))])

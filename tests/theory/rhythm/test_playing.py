"""Played drums on their grid."""

import random
from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.groove import Drums, Groove, join_bars
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.rhythm.playing import put_on_grid
from tests.theory.rhythm.grooves import groove, played, song_time

ROCK = groove(kick="x...x.x.", snare=".x.x", hat="xxxxxxxx")
FUNK = groove(kick="x..x ..x. ..x. ....", snare=".... x..x .x.. x...", hat="xxxx xxxx xxxx xxxx")
BLUES = groove("12/8", kick="x.. ..x x.. ...", snare="... x.. ... x..", hat="xxx xxx xxx xxx")
JAZZ = groove(ride="x.. x.x x.. x.x", pedal_hat=".x.x", snare="... ..x ... ...")


def scattered(drums: Drums, by: float, seed: int) -> Drums:
    """The strokes moved about by up to so many quarters, as hands do."""
    chance = random.Random(seed)
    moved = [replace(stroke, onset=stroke.onset + F(chance.uniform(-by, by))) for stroke in drums.strokes]
    return Drums(tuple(sorted(moved, key=lambda stroke: stroke.onset)))


@pytest.mark.parametrize("pattern", [ROCK, FUNK, BLUES, JAZZ])
@given(seed=st.integers(0, 1000), by=st.floats(0, 0.04))
def test_human_timing_does_not_change_the_groove(pattern: Groove, seed: int, by: float) -> None:
    """Up to 0.04 of a quarter, 20 ms at 120 beats a minute, either way."""
    time = song_time(str(pattern.meter))
    found = put_on_grid(scattered(played(pattern, 4), by, seed), time, time.bars(1, 4))
    places = {(voice, hit.at) for voice, line in found.groove.lines for hit in line}
    assert places == {(voice, hit.at) for voice, line in join_bars([pattern] * 4).lines for hit in line}
    assert found.error <= 0.045


@pytest.mark.parametrize(
    ("late", "name", "place"),
    [("0", "straight", "1/8"), ("1/12", "light swing", "1/8"), ("1/6", "triplet swing", "1/6")],
)  # fmt: skip
def test_swing_is_told_before_the_grid_takes_it_out(late: str, name: str, place: str) -> None:
    time = song_time()
    found = put_on_grid(played(ROCK, 4, F(late)), time, time.bars(1, 4))
    assert found.swing is not None and found.swing.name == name
    half = F(1, 2) + F(late)
    assert found.swing.ratio == pytest.approx(float(half / (1 - half)), abs=0.001)
    assert found.groove.bar(1).onsets("hat")[1] == F(place) and found.error < 0.001


@given(first=st.integers(1, 40))
def test_whole_bars_later_is_the_same_groove(first: int) -> None:
    time = song_time()
    here = put_on_grid(played(FUNK, 4), time, time.bars(1, 4))
    there = put_on_grid(played(FUNK, 4, first_bar=first), time, time.bars(first, first + 3))
    assert there.groove == here.groove and there.bars == tuple(range(first, first + 4))


def test_tempo_is_no_matter() -> None:
    slow, fast = song_time(seconds_a_quarter="1"), song_time(seconds_a_quarter="1/4")
    span = slow.bars(1, 4)
    assert put_on_grid(played(JAZZ, 4), slow, span) == put_on_grid(played(JAZZ, 4), fast, span)


def test_a_stroke_that_comes_early_belongs_to_its_bar() -> None:
    time = song_time()
    drums = played(ROCK, 4)
    early = Drums(tuple(replace(s, onset=s.onset - F(1, 50)) for s in drums.strokes))
    found = put_on_grid(early, time, time.bars(2, 3))
    assert found.groove.bar(1).onsets("kick") == ROCK.onsets("kick") == found.groove.bar(2).onsets("kick")


def test_bars_of_another_meter_are_left_out() -> None:
    time = SongTime(((1, Meter(4, 4)), (3, Meter(2, 4)), (4, Meter(4, 4))), ((F(0), F(0)), (F(4), F(2))))
    found = put_on_grid(played(ROCK, 6), time, time.bars(1, 4))
    assert (found.bars, found.left_out) == ((1, 2, 4), (3,))


def test_touch_follows_loudness() -> None:
    time = song_time()
    loud = groove(snare="oXxX", kick="XxXx")
    assert put_on_grid(played(loud, 1), time, time.bars(1, 1)).groove == loud
    shouted = groove(kick="XXXX")
    assert put_on_grid(played(shouted, 1), time, time.bars(1, 1)).groove == groove(kick="xxxx")


def test_nothing_to_put_anywhere() -> None:
    time = song_time()
    assert put_on_grid(Drums(()), time, time.bars(1, 2)).groove == Groove(Meter(4, 4), 2, ())
    assert put_on_grid(played(ROCK, 1), time, Span(F(1), F(2))).bars == ()

"""Lengths in bars and beats, and count-ins: what musicians count (common practice)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.complaints import MisfitError
from studio.project.counting import Counted, Counting, read_count_in, read_counted, read_either

TWO_A_SECOND = ((Fraction(0), Fraction(0)), (Fraction(2), Fraction(1)))


def counting(**meters: str) -> Counting:
    """A song at 120 quarters a minute whose meters hold from the bars named, as b1="4/4"."""
    changes = tuple((int(bar[1:]), Meter.parse(text)) for bar, text in meters.items())
    return Counting(SongTime(changes, TWO_A_SECOND))


def no_rate() -> Fraction:
    raise AssertionError("not asked for")


@pytest.mark.parametrize(
    ("text", "count", "unit"),
    [
        ("1 bar", Fraction(1), "bar"),
        ("2 bars", Fraction(2), "bar"),
        ("1 beat", Fraction(1), "beat"),
        ("1/2 beat", Fraction(1, 2), "beat"),
        ("1.5 beats", Fraction(3, 2), "beat"),
        ("1+1/2 Bars", Fraction(3, 2), "bar"),
        ("0 beats", Fraction(0), "beat"),
    ],
)
def test_bars_and_beats(text: str, count: Fraction, unit: str) -> None:
    assert read_counted(text) == read_either(text, no_rate) == Counted(count, unit)  # type: ignore[arg-type]


def test_a_bare_number_is_seconds() -> None:
    assert read_either("0.05", no_rate) == Fraction(1, 20)
    assert read_either("0:01.5", no_rate) == read_either("1.5 s", no_rate) == Fraction(3, 2)
    assert read_either("00:00:01:12", lambda: Fraction(24)) == Fraction(3, 2)


@pytest.mark.parametrize(
    "text", ["bar", "one bar", "1 bars 2", "-1 beat", "1/0 beat", "65 bars", "1 2 beats"]
)
def test_what_is_not_counted(text: str) -> None:
    with pytest.raises(MisfitError):
        read_either(text, no_rate)


@pytest.mark.parametrize(
    "text", ["4", "0 beats", "1/2 beat", "5 bars", "17 beats", "1.5 bars", "yes", "2 s", "65 bars"]
)
def test_what_is_no_count_in(text: str) -> None:
    with pytest.raises(MisfitError):
        read_count_in(text)


@pytest.mark.parametrize(
    ("song", "start", "length", "clicks"),
    [
        # The places of the clicks in quarters; bar 5 of 4/4 starts at 16, beat 4 of it is 19.
        (counting(b1="4/4"), 16, "1 bar", [12, 13, 14, 15]),
        (counting(b1="4/4"), 16, "2 beats", [14, 15]),
        (counting(b1="4/4"), 19, "1 bar", [12, 13, 14, 15, 16, 17, 18]),  # 1 2 3 4, 1 2 3
        (counting(b1="4/4"), 19, "4 beats", [15, 16, 17, 18]),
        (counting(b1="4/4"), 0, "1 bar", [-4, -3, -2, -1]),  # before the song, in the meter of bar 1
        (counting(b1="4/4"), 0, "2 bars", [-8, -7, -6, -5, -4, -3, -2, -1]),
        (counting(b1="4/4"), -1, "1 bar", [-8, -7, -6, -5, -4, -3, -2]),  # up to a pickup of one beat
        # Compound meter is counted in dotted quarters.
        (counting(b1="6/8"), 3, "1 bar", [0, Fraction(3, 2)]),
        (counting(b1="6/8"), 0, "4 beats", [-6, Fraction(-9, 2), -3, Fraction(-3, 2)]),
        # A bar of 2/4 before the excerpt is counted as one.
        (counting(b1="4/4", b2="2/4", b3="4/4"), 6, "1 bar", [4, 5]),
        (counting(b1="4/4", b2="2/4", b3="4/4"), 6, "3 beats", [3, 4, 5]),
        (counting(b1="3/4"), Fraction(7, 2), "2 beats", [2, 3]),  # music that starts between the beats
        (counting(b1="4/4"), Fraction(159, 10), "1 bar", [12, 13, 14, 15]),  # cut a tenth early, for the pick
    ],
)
def test_a_count_in(song: Counting, start: Fraction, length: str, clicks: list[Fraction]) -> None:
    first = song.count_in(Fraction(start), read_count_in(length))
    assert first == clicks[0]
    beats = [first]
    while (following := song.moved(beats[-1], Counted(Fraction(1), "beat"))) < start:
        beats.append(following)
    assert beats == clicks


@st.composite
def songs(draw: st.DrawFn) -> Counting:
    meter = st.sampled_from(["4/4", "3/4", "2/4", "6/8", "7/8", "12/8", "5/4", "2/2"]).map(Meter.parse)
    bars = draw(st.lists(st.integers(2, 12), unique=True, max_size=3).map(sorted))
    return Counting(SongTime(tuple((bar, draw(meter)) for bar in (1, *bars)), TWO_A_SECOND))


QUARTERS = st.fractions(-20, 60, max_denominator=12)
LENGTHS = st.builds(Counted, st.fractions(0, 8, max_denominator=6), st.sampled_from(["bar", "beat"]))


@given(song=songs(), start=QUARTERS, length=LENGTHS)
def test_there_and_back(song: Counting, start: Fraction, length: Counted) -> None:
    there = song.moved(start, length)
    assert song.moved(there, length, back=True) == start
    assert (there > start) == (length.count > 0)


@given(song=songs(), start=QUARTERS, one=LENGTHS, more=st.fractions(0, 4, max_denominator=6))
def test_lengths_add_up(song: Counting, start: Fraction, one: Counted, more: Fraction) -> None:
    both = Counted(one.count + more, one.unit)
    assert song.moved(song.moved(start, one), Counted(more, one.unit)) == song.moved(start, both)


@given(song=songs(), bar=st.integers(1, 20), count=st.integers(0, 8))
def test_whole_bars_lead_from_bar_line_to_bar_line(song: Counting, bar: int, count: int) -> None:
    there = song.moved(song.time.bar_start(bar), Counted(Fraction(count), "bar"))
    assert there == song.time.bar_start(bar + count)


@given(song=songs(), start=st.fractions(20, 60, max_denominator=12), count=st.integers(1, 6))
def test_a_count_in_is_the_last_beats_of_the_song_before_it(
    song: Counting, start: Fraction, count: int
) -> None:
    beats = song.time.beats(Span(Fraction(0), start))
    assert song.count_in(start, Counted(Fraction(count), "beat")) == beats[-count]

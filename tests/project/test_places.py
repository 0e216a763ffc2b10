"""Places in the song, as written and where they are."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.complaints import MisfitError, UnknowableError
from studio.project.places import Spot, WrittenPlace, read_bars, read_place
from studio.project.surroundings import Known

F = Fraction
ANCHORS = ((F(0), F(0)), (F(4), F(2)))
FOUR = SongTime(((1, Meter(4, 4)), (7, Meter(2, 4)), (8, Meter(4, 4))), ANCHORS, pickup=F(1))
SONG = Known(time=FOUR, end=F(46), sections={"intro": (0, 4), "verse": (5, 12), "pre-chorus 2": (9, 10)})
SIX_EIGHT = Known(time=SongTime(((1, Meter(6, 8)),), ANCHORS), end=F(24), sections={})


@pytest.mark.parametrize(
    ("text", "start", "end"),
    [
        ("6", 20, 24),
        ("5-8", 16, 30),
        ("5–8", 16, 30),
        ("6.3-8.1", 22, 26),
        ("6.2+1/2-6.3", F(43, 2), 22),
        ("verse", 16, 46),
        ("verse bar 2", 20, 24),
        ("verse bars 1-4", 16, 30),
        ("verse bars 1.3-2.2", 18, 21),
        ("verse  bars 8-8", 42, 46),
        ("intro", -1, 16),
        ("intro bar 1", 0, 4),
        ("intro bar 0", -1, 0),
        ("0", -1, 0),
        ("pre-chorus 2 bar 2", 34, 38),
        ("11.1-13.1", 38, 46),
    ],
)
def test_a_place_is_a_span_in_quarters(text: str, start: Fraction, end: Fraction) -> None:
    assert SONG.span(text) == Span(F(start), F(end))


def test_beats_are_the_meters_own() -> None:
    """In 6/8 a beat is a dotted quarter: a bar has two."""
    assert SIX_EIGHT.instant("3.2") == F(15, 2)
    with pytest.raises(MisfitError, match="beats 1 to 2"):
        SIX_EIGHT.instant("3.3")


def test_an_instant_may_lie_in_a_section() -> None:
    assert SONG.instant("verse bar 2.3") == 22
    assert SONG.instant("6.2+1/2") == F(43, 2)
    assert SONG.instant("0.4") == -1


@pytest.mark.parametrize(
    ("text", "phrase"),
    [
        ("6.3", "one moment; write a stretch, such as 6.3-6.4, or 6"),
        ("13", "past the end of the song, whose last bar is 12"),
        ("11-13", "past the end of the song"),
        ("verse bar 9", "past the end of verse, which has 8 bars; use 1 to 8"),
        ("verse bar 0", "bars of a section count from 1"),
        ("vers bar 2", "did you mean 'verse'"),
        ("chorus", "not a section"),
        ("8-5", "ends before it starts"),
        ("6.3-6.3", "ends before it starts"),
        ("6-8.1", "a beat at one end only"),
        ("6.5-7.1", "has beats 1 to 4"),
        ("7.3-8.1", "has beats 1 to 2"),
        ("6.0-7.1", "has beats 1 to 4"),
        ("6.2+1/0-7.1", "divides a beat by nothing"),
        ("6.2+3/2-7.1", "add less than 1"),
        ("1:30", "not a place"),
        ("", "not a place"),
        ("x" * 500, "too long"),
    ],
)
def test_what_is_no_place(text: str, phrase: str) -> None:
    with pytest.raises(MisfitError, match=phrase):
        SONG.span(text)


def test_without_a_pickup_there_is_no_bar_0() -> None:
    with pytest.raises(MisfitError, match="there is no bar 0"):
        SIX_EIGHT.span("0")


def test_what_cannot_be_judged_is_not_complained_of() -> None:
    with pytest.raises(UnknowableError):
        Known(time=FOUR, end=None, sections=None).span("verse")
    with pytest.raises(UnknowableError):
        Known(time=FOUR, end=F(46), timed=False).stretch("5-8")
    with pytest.raises(MisfitError, match="a beat at one end"):
        Known().span("6-8.1")


SPOTS = st.builds(
    Spot,
    st.integers(0, 999),
    st.one_of(st.none(), st.builds(lambda n, d: 1 + F(n, d), st.integers(0, 60), st.integers(1, 16))),
)
NAMES = st.sampled_from(["verse", "verse 2", "pre-chorus", "A", "outro (slow)"])


@given(section=st.none() | NAMES, first=SPOTS, last=st.none() | SPOTS)
def test_a_written_place_reads_back(section: str | None, first: Spot, last: Spot | None) -> None:
    place = WrittenPlace(section, first, last)
    fits = last is None or (
        (first.beat is None) == (last.beat is None)
        and (first.bar, first.beat or 0) <= (last.bar, last.beat or 0)
        and (first.beat is None or first != last)
    )
    if fits:
        assert read_place(str(place)) == place
    else:
        with pytest.raises(MisfitError):
            read_place(str(place))


@given(st.fractions(min_value=-1, max_value=F(45), max_denominator=48))
def test_every_moment_of_a_song_reads_back(quarters: Fraction) -> None:
    """quarters -> Place -> text -> quarters is exact, through the pickup and the change of meter."""
    place = FOUR.place(quarters)
    text = f"{place.bar}.1" if place.beat == 1 else str(place)
    assert SONG.instant(text) == quarters


def test_whole_bars() -> None:
    assert read_bars("5-12") == (5, 12) and read_bars("24") == (24, 24)
    for text in ("5.1-6.1", "verse", "12-5", "5 to 12"):
        with pytest.raises(MisfitError):
            read_bars(text)

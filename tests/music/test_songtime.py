"""Song time is exact: every round trip gives back what went in."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.meter import Meter
from studio.music.place import Place, Span
from studio.music.songtime import SongTime

FOUR, TWO, SIX, THREE = Meter(4, 4), Meter(2, 4), Meter(6, 8), Meter(3, 4)

meters = st.lists(
    st.tuples(st.integers(2, 40), st.sampled_from([FOUR, TWO, SIX, THREE, Meter(7, 8), Meter(12, 8)])),
    max_size=4,
    unique_by=lambda change: change[0],
).map(lambda changes: ((1, FOUR), *sorted(changes, key=lambda change: change[0])))


@st.composite
def song_times(draw: st.DrawFn) -> SongTime:
    count = draw(st.integers(2, 5))
    bars = sorted(draw(st.lists(st.integers(0, 200), min_size=count, max_size=count, unique=True)))
    times = sorted(draw(st.lists(st.integers(0, 400_000), min_size=count, max_size=count, unique=True)))
    pickup = draw(st.sampled_from([F(0), F(1), F(1, 2), F(3)]))
    anchors = tuple((F(q), F(ms, 1000)) for q, ms in zip(bars, times, strict=True))
    return SongTime(draw(meters), anchors, pickup)


@given(song_times(), st.integers(-480, 96_000))
def test_quarters_to_seconds_and_back_is_exact(time: SongTime, tick: int) -> None:
    quarters = F(tick, 480)
    assert time.quarters_at(time.seconds(quarters)) == quarters


@given(song_times(), st.integers(0, 96_000))
def test_quarters_to_place_and_back_is_exact(time: SongTime, tick: int) -> None:
    quarters = F(tick, 480)
    assert time.quarters(time.place(quarters)) == quarters


@given(song_times(), st.integers(0, 48_000), st.integers(1, 9_000))
def test_later_in_the_song_is_later_in_the_recording(time: SongTime, tick: int, more: int) -> None:
    assert time.seconds(F(tick, 480)) < time.seconds(F(tick + more, 480))


def steady(*meters: tuple[int, Meter], pickup: F = F(0)) -> SongTime:
    return SongTime(meters or ((1, FOUR),), ((F(0), F(0)), (F(1), F(1, 2))), pickup)


def test_a_bar_of_two_four_shifts_what_follows() -> None:
    time = steady((1, FOUR), (3, TWO), (4, FOUR))
    assert [time.bar_start(bar) for bar in (1, 2, 3, 4, 5)] == [0, 4, 8, 10, 14]
    assert time.place(F(9)) == Place(3, F(2))
    assert time.place(F(10)) == Place(4, F(1))
    with pytest.raises(ValueError, match="bar 3 is in 2/4 and has beats 1 to 2"):
        time.quarters(Place(3, F(3)))


def test_six_eight_counts_dotted_quarters() -> None:
    time = steady((1, SIX))
    assert SIX.beats == 2 and SIX.beat == F(3, 2)
    assert time.quarters(Place(2, F(2))) == F(3) + F(3, 2)
    assert time.beats(Span(F(0), F(6))) == (0, F(3, 2), 3, F(9, 2))


def test_the_pickup_is_the_end_of_bar_0() -> None:
    time = steady(pickup=F(1))
    assert time.quarters(Place(0, F(4))) == -1
    assert time.quarters(Place(0)) == -1
    assert time.place(F(-1, 2)) == Place(0, F(9, 2))
    assert str(time.place(F(-1, 2))) == "0.4+1/2"
    assert time.bars(0, 1) == Span(F(-1), F(4))
    with pytest.raises(ValueError, match=r"starts at 0\.4"):
        time.quarters(Place(0, F(3)))


def test_there_is_no_bar_before_the_song() -> None:
    with pytest.raises(ValueError, match="there is no bar 0"):
        steady().quarters(Place(0, F(4)))


def test_tempo_is_constant_between_anchors_and_goes_on_after_them() -> None:
    time = SongTime(((1, FOUR),), ((F(0), F(1)), (F(8), F(5)), (F(16), F(10))))
    assert time.seconds(F(4)) == 3
    assert time.seconds(F(12)) == F(15, 2)
    assert time.seconds(F(24)) == 15
    assert time.seconds(F(-2)) == 0


def test_barlines_are_those_that_start_inside() -> None:
    assert steady().barlines(Span(F(1), F(9))) == ((2, F(4)), (3, F(8)))
    assert steady(pickup=F(1)).barlines(Span(F(-1), F(4))) == ((0, F(-1)), (1, F(0)))


@given(song_times(), st.integers(-480, 96_000), st.integers(0, 30_000))
def test_both_ends_of_a_span_move_to_the_nearest_beat(time: SongTime, tick: int, more: int) -> None:
    span = Span(F(tick, 480), F(tick + more, 480))
    moved = time.to_beats(span)
    if moved != span:
        for before, after in ((span.start, moved.start), (span.end, moved.end)):
            assert after in time.beats(Span(after, after + F(1, 64)))
            beat = time.meter(time.bar_at(min(before, after))).beat
            assert abs(after - before) <= beat
    assert moved.start < moved.end or moved == span


def test_a_sliver_of_a_bar_is_nobody_s_meaning() -> None:
    time = SongTime(((1, Meter(6, 8)),), ((F(0), F(0)), (F(1), F(1))))
    assert time.to_beats(Span(F(1, 50), F(6) + F(1, 16))) == Span(F(0), F(6))
    assert time.to_beats(Span(F(0), F(1, 10))) == Span(F(0), F(1, 10))


@pytest.mark.parametrize("text", ["4/5", "0/4", "four", "4", "4/4/4", "-3/4", ""])
def test_what_is_not_a_meter_is_refused_in_words(text: str) -> None:
    with pytest.raises(ValueError, match="is not a meter"):
        Meter.parse(text)


@given(st.integers(1, 300), st.fractions(1, 5, max_denominator=16))
def test_places_print_as_people_write_them(bar: int, beat: F) -> None:
    text = str(Place(bar, beat))
    head, _, rest = text.partition("+")
    number, _, whole = head.partition(".")
    assert Place(int(number), F(whole or 1) + F(rest or 0)) == Place(bar, beat)


@pytest.mark.parametrize(
    ("span", "words"),
    [
        (Span(F(0), F(4)), "bar 1"),
        (Span(F(-1), F(8)), "bars 0–2"),
        (Span(F(16), F(32)), "bars 5–8"),
        (Span(F(3), F(5)), "1.4 to 2.2"),
        (Span(F(4), F(9, 2)), "2.1 to 2.1+1/2"),
        (Span(F(2), F(3)), "1.3 to 1.4"),
        (Span(F(2), F(4)), "1.3 to the end of the bar"),
        (Span(F(38), F(48)), "10.3 to the end of bar 12"),
        (Span(F(-1, 2), F(0)), "0.4+1/2 to the end of the pickup"),
        (Span(F(4), F(4)), "2.1 to 2.1"),
        (Span(F(75, 74), F(8)), "about 1.2 to the end of bar 2"),
    ],
)
def test_spans_are_said_as_people_write_them(span: Span, words: str) -> None:
    assert steady(pickup=F(1)).words(span) == words

"""Song time to clip frames: pictures cannot disagree with the sound they stand over."""

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.timeline.clock import ClipClock, Heard

TIME = SongTime(((1, Meter(4, 4)),), ((F(0), F(1, 2)), (F(64), F(40)), (F(128), F(81))))
RATES = [F(24), F(25), F(30), F(50), F(60), F(30000, 1001), F(24000, 1001)]


@given(
    st.sampled_from(RATES),
    st.fractions(0, 60, max_denominator=1000),
    st.fractions(1, 20, max_denominator=1000),
    st.fractions(0, 5, max_denominator=100),
    st.fractions(0, 1, max_denominator=64),
)
def test_a_moment_is_shown_within_half_a_frame_of_when_it_sounds(
    rate: F, start: F, length: F, at: F, part: F
) -> None:
    clock = ClipClock(rate, TIME, (Heard(at, start, length),))
    moment = start + part * length * F(9, 10)
    quarters = TIME.quarters_at(moment)
    ((first, _),) = clock.frames(Span(quarters, TIME.quarters_at(start + length)))
    assert abs(first / rate - (moment - start + at)) <= 1 / (2 * rate)


def test_each_hearing_of_a_repeated_stretch_is_found() -> None:
    twice = (Heard(F(0), F(10), F(4)), Heard(F(4), F(10), F(4)))
    clock = ClipClock(F(30), TIME, twice)
    span = Span(TIME.quarters_at(F(11)), TIME.quarters_at(F(12)))
    assert list(clock.frames(span)) == [(30, 60), (150, 180)]
    assert [round(float(span.length), 6) for span in clock.spans(0, 240)] == [
        round(float(TIME.quarters_at(F(14)) - TIME.quarters_at(F(10))), 6)
    ] * 2


@given(
    st.fractions(F(2, 5), F(3, 2), max_denominator=100),
    st.fractions(0, 60, max_denominator=1000),
    st.fractions(1, 20, max_denominator=1000),
    st.fractions(0, 1, max_denominator=64),
)
def test_a_slowed_or_hastened_moment_is_shown_within_half_a_frame(
    speed: F, start: F, length: F, part: F
) -> None:
    heard = Heard(F(2), start, length, speed)
    clock = ClipClock(F(30), TIME, (heard,))
    moment = start + part * length * F(9, 10)
    quarters = TIME.quarters_at(moment)
    ((first, last),) = clock.frames(Span(quarters, TIME.quarters_at(start + length)))
    assert abs(first / F(30) - (2 + (moment - start) / speed)) <= F(1, 60)
    assert abs(last / F(30) - (2 + length / speed)) <= F(1, 60)
    assert heard.source_time(heard.clip_time(moment)) == moment


@given(st.fractions(F(2, 5), F(3, 2), max_denominator=20), st.integers(0, 200), st.integers(1, 200))
def test_what_is_heard_between_frames_is_heard_at_those_frames(speed: F, start: int, length: int) -> None:
    clock = ClipClock(F(30), TIME, (Heard(F(0), F(4), F(9), speed),))
    for span in clock.spans(start, start + length):
        ((first, last),) = clock.frames(span)
        assert start <= first <= last <= start + length


def test_what_is_not_played_is_not_found() -> None:
    clock = ClipClock(F(30), TIME, (Heard(F(0), F(10), F(4)),))
    assert list(clock.frames(Span(TIME.quarters_at(F(20)), TIME.quarters_at(F(22))))) == []
    assert list(ClipClock(F(30), TIME, ()).frames(Span(F(0), F(4)))) == []

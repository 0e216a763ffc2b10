"""Times: clock, seconds and timecode, exact."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from opentimelineio import opentime

from studio.project.complaints import MisfitError, UnknowableError
from studio.project.times import is_time_range, read_length, read_time, read_time_range, time_text

RATES = {
    23.976: Fraction(24000, 1001),
    24.0: Fraction(24),
    25.0: Fraction(25),
    29.97: Fraction(30000, 1001),
    30.0: Fraction(30),
    50.0: Fraction(50),
    60.0: Fraction(60),
}


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("1:03.25", Fraction(253, 4)),
        ("0:01:03.250", Fraction(253, 4)),
        ("63.25s", Fraction(253, 4)),
        ("63.25 s", Fraction(253, 4)),
        ("0:00.1", Fraction(1, 10)),
        ("75:00", Fraction(4500)),
        ("1:00:00", Fraction(3600)),
        (" 0:05 ", Fraction(5)),
    ],
)
def test_a_time_is_exact(text: str, seconds: Fraction) -> None:
    assert read_time(text) == seconds


@pytest.mark.parametrize(
    ("text", "phrase"),
    [
        ("5", "write 5s, or 0:05"),
        ("63", "write 63s"),
        ("1:2", "not a time"),
        ("1:75", "go up to 59"),
        ("1:75:00", "go up to 59"),
        ("-0:05", "before the start"),
        ("soon", "not a time"),
        ("", "not a time"),
        ("1:0３", "not a time"),
        ("1_0s", "not a time"),
        ("1e3s", "not a time"),
    ],
)
def test_what_is_no_time(text: str, phrase: str) -> None:
    with pytest.raises(MisfitError, match=phrase):
        read_time(text, lambda: Fraction(30))


@given(st.fractions(min_value=0, max_value=90_000, max_denominator=1000))
def test_a_time_to_the_millisecond_reads_back(seconds: Fraction) -> None:
    seconds = Fraction(round(seconds * 1000), 1000)
    assert read_time(time_text(seconds)) == seconds
    assert read_time(f"{float(seconds):.3f}s") == seconds


@given(frame=st.integers(0, 24 * 3600 * 24 - 1), rate=st.sampled_from(sorted(RATES)))
def test_timecode_agrees_with_opentimelineio(frame: int, rate: float) -> None:
    """opentimelineio.opentime writes the timecode, we read it: SMPTE ST 12-1 without drop-frame."""
    code = opentime.RationalTime(frame, rate).to_timecode(rate, drop_frame=False)
    assert read_time(code, lambda: RATES[rate]) == frame / RATES[rate]


@given(frame=st.integers(0, 2 * 107_892))
def test_drop_frame_timecode_agrees_with_opentimelineio(frame: int) -> None:
    code = opentime.RationalTime(frame, 29.97).to_timecode(29.97, drop_frame=True)
    assert read_time(code, lambda: RATES[29.97]) == frame / RATES[29.97]


def test_timecode_needs_a_frame_rate() -> None:
    with pytest.raises(UnknowableError):
        read_time("00:00:01:00")


def test_ranges_run_from_and_up_to() -> None:
    assert read_time_range("0:04-0:12") == (4, 12)
    assert read_time_range("0:04 – 12.5s") == (4, Fraction(25, 2))
    with pytest.raises(MisfitError, match="ends before it starts"):
        read_time_range("0:12-0:04")
    for text in ("0:04", "0:04-", "-0:04", "0:01-0:02-0:03"):
        with pytest.raises(MisfitError, match="stretch of time"):
            read_time_range(text)


def test_a_length_may_be_a_bare_number_of_seconds() -> None:
    assert read_length("0.05") == Fraction(1, 20)
    assert read_length("0:01") == 1


@pytest.mark.parametrize(
    ("text", "is_time"), [("1:03-1:20", True), ("3s-5s", True), ("5-8", False), ("verse", False)]
)
def test_a_range_of_time_is_told_from_a_place(text: str, is_time: bool) -> None:
    assert is_time_range(text) is is_time

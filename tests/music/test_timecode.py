"""Timecode against SMPTE ST 12-1's counts and against OpenTimelineIO's opentime."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st
from opentimelineio import opentime

from studio.music.timecode import can_drop, frames, timecode

NTSC = F(30000, 1001)
RATES = [F(24), F(25), F(30), F(50), F(60), NTSC, F(24000, 1001), F(60000, 1001)]


def test_drop_frame_counts_of_smpte_st_12_1() -> None:
    # SMPTE ST 12-1: ten minutes of 29.97 drop-frame are 17,982 frames, an hour is 107,892.
    assert frames("00:10:00;00", NTSC) == 17_982
    assert frames("01:00:00;00", NTSC) == 107_892
    assert timecode(1799, NTSC, drop=True) == "00:00:59;29"
    assert timecode(1800, NTSC, drop=True) == "00:01:00;02"


@given(st.sampled_from([NTSC, F(60000, 1001)]), st.integers(0, 24 * 107_892 - 1))
def test_drop_frame_agrees_with_opentimelineio(rate: F, frame: int) -> None:
    # Source: OpenTimelineIO, opentime.to_timecode.
    theirs = opentime.to_timecode(opentime.RationalTime(frame, float(rate)), float(rate), True)
    assert timecode(frame, rate, drop=True) == theirs


@given(st.sampled_from([F(24), F(25), F(30), F(50), F(60)]), st.integers(0, 2_000_000))
def test_counting_without_drop_agrees_with_opentimelineio(rate: F, frame: int) -> None:
    # Source: OpenTimelineIO, opentime.to_timecode.
    theirs = opentime.to_timecode(opentime.RationalTime(frame, float(rate)), float(rate), False)
    assert timecode(frame, rate) == theirs


@given(st.sampled_from(RATES), st.booleans(), st.integers(0, 4_000_000))
def test_reading_is_the_inverse_of_printing(rate: F, drop: bool, frame: int) -> None:
    drop = drop and can_drop(rate)
    assert frames(timecode(frame, rate, drop), rate) == frame


@pytest.mark.parametrize(
    ("text", "rate", "words"),
    [
        ("00:01:00;00", NTSC, "does not exist"),
        ("00:00:10;00", F(25), "exists at 29.97"),
        ("00:00:10:25", F(25), "frames to 24"),
        ("00:61:00:00", F(25), "go to 59"),
        ("1:03", F(25), "is not a timecode"),
        ("", F(25), "is not a timecode"),
    ],
)
def test_what_is_not_a_timecode_is_refused_in_words(text: str, rate: F, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        frames(text, rate)


def test_there_is_no_timecode_before_zero() -> None:
    with pytest.raises(ValueError, match="frame 0"):
        timecode(-1, F(25))

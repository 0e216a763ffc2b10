"""Decibels, cents, speeds and places between left and right, as people write them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.project import amounts
from studio.project.complaints import MisfitError


@pytest.mark.parametrize(
    ("read", "text", "value"),
    [
        (amounts.read_decibels, "-3 dB", -3.0),
        (amounts.read_decibels, "−4.5dB", -4.5),
        (amounts.read_decibels, "+2 db", 2.0),
        (amounts.read_decibels, "0 dB", 0.0),
        (amounts.read_decibels, "-60 dB", -60.0),
        (amounts.read_decibels, "24 dB", 24.0),
        (amounts.read_lowering, "9 dB", 9.0),
        (amounts.read_ducking, "15 dB", 15.0),
        (amounts.read_ducking, "off", False),
        (amounts.read_ducking, "on", True),
        (amounts.read_glide, "0.15", Fraction(15, 100)),
        (amounts.read_glide, "0.6 s", Fraction(6, 10)),
        (amounts.read_click, "yes", 0.0),
        (amounts.read_click, "no", None),
        (amounts.read_click, "-6 dB", -6.0),
        (amounts.read_speed, "0.8", Fraction(4, 5)),
        (amounts.read_speed, "80 %", Fraction(4, 5)),
        (amounts.read_speed, "62.5%", Fraction(5, 8)),
        (amounts.read_speed, "0.4", Fraction(2, 5)),
        (amounts.read_speed, "150 %", Fraction(3, 2)),
        (amounts.read_repeat, "1", 1),
        (amounts.read_repeat, "8", 8),
        (amounts.read_cents, "-15 cents", Fraction(-15)),
        (amounts.read_cents, "1 cent", Fraction(1)),
        (amounts.read_cents, "12.5 cents", Fraction(25, 2)),
        # A half step of equal temperament is 100 cents (A. J. Ellis, in Helmholtz, On the Sensations of Tone, 1885).
        (amounts.read_cents, "1 half step", Fraction(100)),
        (amounts.read_cents, "−12 half steps", Fraction(-1200)),
        (amounts.read_cents, "0 cents", Fraction(0)),
        (amounts.read_cents, "2 semitones", Fraction(200)),
        (amounts.read_pan, "left 40 %", -0.4),
        (amounts.read_pan, "right 20%", 0.2),
        (amounts.read_pan, "left", -1.0),
        (amounts.read_pan, "Right 0 %", 0.0),
        (amounts.read_pan, "middle", 0.0),
        (amounts.read_played_sound, "Plucked", "plucked"),
        # General MIDI System Level 1 has 128 sounds, which its table numbers from 1.
        (amounts.read_played_sound, "soundfont 1", "soundfont 1"),
        (amounts.read_played_sound, "SoundFont  128", "soundfont 128"),
    ],
)
def test_what_is_read(read: Callable[[str], Any], text: str, value: Any) -> None:
    assert read(text) == value
    assert type(read(text)) is type(value)


@pytest.mark.parametrize(
    ("read", "text", "sentence"),
    [
        (amounts.read_decibels, "-3", "'-3' has no unit; write -3 dB"),
        (amounts.read_decibels, "-60.1 dB", "'-60.1 dB' is out of range; this goes from -60 to 24 dB"),
        (amounts.read_decibels, "quiet", "'quiet' is not a level; write decibels, as -3 dB"),
        (amounts.read_decibels, "-3 dBFS", "'-3 dBFS' is not a level"),
        (amounts.read_decibels, "٣ dB", "'٣ dB' is not a level"),
        (
            amounts.read_lowering,
            "-9 dB",
            "'-9 dB' says by how much something goes down, so it has no minus; write 9",
        ),
        (amounts.read_lowering, "0 dB", "'0 dB' lowers nothing"),
        (amounts.read_lowering, "61 dB", "'61 dB' is out of range; this goes from 0 to 60 dB"),
        (amounts.read_glide, "11", "'11' is too slow to be heard as one move; the most is 10 s"),
        (amounts.read_glide, "00:00:01:00", "'00:00:01:00' is timecode; write seconds, as 0.15"),
        (amounts.read_glide, "-1", "'-1' is before the start"),
        (amounts.read_cents, "2 tones", "'2 tones' is written 4 half steps here"),
        (amounts.read_cents, "13 semitones", "'13 semitones' is out of range"),
        (amounts.read_cents, "0.5 tones", "'0.5 tones' is written 1 half step here"),
        (
            amounts.read_cents,
            "3,5 cents",
            "'3,5 cents' has a comma in it; numbers take a point, as in 3.5 cents",
        ),
        (amounts.read_cents, "-15 ct", "'-15 ct' is written -15 cents here"),
        (
            amounts.read_pan,
            "40 %",
            "'40 %' is no place between left and right; write left 40 %, right 20 % or middle",
        ),
        (amounts.read_pan, "left -40 %", "'left -40 %' is no place between left and right"),
        (amounts.read_played_sound, "pluck", "'pluck' is not a sound; did you mean 'plucked'?"),
        (amounts.read_played_sound, "soundfont x", "'soundfont x' names no program"),
    ],
)
def test_what_is_refused(read: Callable[[str], Any], text: str, sentence: str) -> None:
    with pytest.raises(MisfitError) as raised:
        read(text)
    assert raised.value.sentence.startswith(sentence)


TENTHS = st.integers(-600, 240).map(lambda tenths: tenths / 10)


@given(level=TENTHS, minus=st.sampled_from("-−"), gap=st.sampled_from(["", " ", "  "]))
def test_a_level_that_is_written_is_read_back(level: float, minus: str, gap: str) -> None:
    assert amounts.read_decibels(f"{level:.1f}{gap}dB".replace("-", minus)) == level


@given(percent=st.integers(40, 150))
def test_a_speed_is_exact_either_way(percent: int) -> None:
    ratio = f"{percent // 100}.{percent % 100:02}"
    assert amounts.read_speed(f"{percent} %") == amounts.read_speed(ratio) == Fraction(percent, 100)


@given(steps=st.integers(-12, 12))
def test_half_steps_are_hundreds_of_cents(steps: int) -> None:
    assert amounts.read_cents(f"{steps} half steps") == amounts.read_cents(f"{steps * 100} cents")


@given(percent=st.integers(0, 100))
def test_left_mirrors_right(percent: int) -> None:
    left, right = (amounts.read_pan(f"{side} {percent} %") for side in ("left", "right"))
    assert left == -right and right * 100 == pytest.approx(percent)


@given(text=st.text(max_size=12))
@pytest.mark.parametrize(
    "read",
    [
        amounts.read_decibels,
        amounts.read_lowering,
        amounts.read_ducking,
        amounts.read_glide,
        amounts.read_click,
        amounts.read_speed,
        amounts.read_repeat,
        amounts.read_cents,
        amounts.read_pan,
        amounts.read_played_sound,
    ],
)
def test_any_text_is_read_or_refused(read: Callable[[str], Any], text: str) -> None:
    try:
        read(text)
    except MisfitError as misfit:
        assert misfit.sentence

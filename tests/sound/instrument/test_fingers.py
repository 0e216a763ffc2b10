"""Keys that are struck again, and strings that are crossed one after the other."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.sound.instrument.fingers import LIFTED, fingered, strummed
from studio.sound.instrument.play import TIMBRES, played
from studio.timeline.heard import RATE, Tone

D5 = 74
APART = RATE // 100

tones = st.builds(
    Tone,
    start=st.integers(0, 9000),
    length=st.integers(1, 9000),
    midi=st.integers(60, 63),
    loud=st.floats(0.1, 1.0),
)


def level(samples: np.ndarray) -> float:
    """Decibels."""
    return float(20 * np.log10(np.sqrt(np.mean(samples.astype(np.float64) ** 2))))


@pytest.mark.parametrize("sound", TIMBRES)
def test_a_note_that_is_repeated_is_heard_as_two(sound: str) -> None:
    """Against one that is held the sound falls by 7 dB or more before the second blow, which brings it back: a gap
    that any listener hears (from memory, a few decibels within some hundredths of a second are heard)."""
    half = RATE // 2
    repeated = played([Tone(0, half, D5), Tone(half, half, D5)], sound, "", RATE)
    held = played([Tone(0, RATE, D5)], sound, "", RATE)
    before, after = slice(half - 300, half), slice(half + 1500, half + 3900)
    assert level(held[before]) - level(repeated[before]) > 7
    assert level(repeated[after]) - level(repeated[before]) > 7


def test_a_key_is_up_for_60_to_80_ms_and_for_a_third_of_its_length_at_most() -> None:
    long, short = RATE, RATE // 10
    first, second, third = fingered([Tone(0, long, 60), Tone(long, short, 60), Tone(long + short, 99, 60)])
    assert 0.06 * RATE <= long - (first.start + first.length) == LIFTED <= 0.08 * RATE
    assert second.length == short - short // 3
    assert third.length == 99


def test_other_keys_and_notes_that_are_short_are_left_alone() -> None:
    written = [Tone(0, 9600, 60), Tone(9600, 9600, 62), Tone(48_000, 9600, 60)]
    assert fingered(written) == written


def test_one_key_struck_twice_at_once_is_one_key() -> None:
    assert fingered([Tone(0, 500, 60, 0.9), Tone(0, 900, 60, 0.4)]) == [Tone(0, 900, 60, 0.9)]


@given(st.lists(tones, max_size=8))
def test_no_key_is_down_twice_and_every_blow_is_where_it_was(written: list[Tone]) -> None:
    found = fingered(written)
    assert {(one.start, one.midi) for one in found} == {(one.start, one.midi) for one in written}
    for midi in {one.midi for one in found}:
        of_key = [one for one in found if one.midi == midi]
        for one, after in pairwise(of_key):
            assert one.length >= 1 and one.start + one.length <= after.start


def test_plucked_strings_are_crossed_from_low_to_high_and_the_lowest_is_on_time() -> None:
    chord = [Tone(0, RATE, midi) for midi in (64, 48, 55, 60)]
    found = strummed(fingered(chord), APART)
    assert [(one.midi, one.start) for one in found] == [
        (48, 0), (55, APART), (60, 2 * APART), (64, 3 * APART)
    ]  # fmt: skip
    assert {one.start + one.length for one in found} == {RATE}


def test_from_string_to_string_it_takes_8_to_15_ms_where_strings_are_plucked_and_nowhere_else() -> None:
    assert 0.008 <= TIMBRES["plucked"].strum <= 0.015
    assert TIMBRES["struck"].strum == TIMBRES["sustained"].strum == 0


def test_a_strum_is_heard() -> None:
    """Until the thumb has reached the second string, the first one sounds alone."""
    whole = played([Tone(0, RATE, midi) for midi in (48, 55, 60, 64)], "plucked", "", RATE)
    lowest = played([Tone(0, RATE, 48)], "plucked", "", RATE)
    strum = round(TIMBRES["plucked"].strum * RATE)
    np.testing.assert_array_equal(whole[:strum], lowest[:strum])
    assert np.abs(whole[strum : 2 * strum] - lowest[strum : 2 * strum]).max() > 0.01


def test_a_strum_takes_no_note_away() -> None:
    for one in strummed(fingered([Tone(0, 30, midi) for midi in range(60, 70)]), APART):
        assert one.length >= 20 and one.start <= 10

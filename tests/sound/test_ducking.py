"""Music under a voice: as far down as asked, in time, smooth, and untouched where nobody talks."""

from __future__ import annotations

import numpy as np
import pyloudnorm
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.sound.ducking import HOLD, STAND, duck, ducked, falling, talk_under
from studio.sound.loudness import measure
from studio.sound.samples import silence
from studio.timeline.heard import Ducking
from tests.sound.a_voice import RATE, band_noise, sentence, words

SLACK = 0.07  # seconds that a word may be found too early, or too late
SAID = [*sentence(2.0), *sentence(4.9), *sentence(10.0)]
"""Two sentences with 0.8 s between them, and a third after a pause of three seconds."""


def steady(length: int) -> np.ndarray:
    return np.ones((length, 2), np.float32)


def decibels(voice: np.ndarray, ducking: Ducking) -> np.ndarray:
    """What is done to music, sample by sample, in dB; both sides alike."""
    gains = ducked(steady(len(voice)), voice, ducking)
    assert np.array_equal(gains[:, 0], gains[:, 1])
    return 20 * np.log10(gains[:, 0].astype(np.float64))


@pytest.mark.parametrize("by_db", [6.0, 12.0, 15.0, 18.0, 40.0])
@pytest.mark.parametrize("room", [None, -60.0])
@pytest.mark.slow
def test_music_is_down_by_the_amount_while_somebody_talks(by_db: float, room: float | None) -> None:
    curve = decibels(words(14, SAID, room=room), Ducking(by_db=by_db))
    for start, end in SAID:
        during = curve[round(start * RATE) : round(end * RATE)]
        assert during == pytest.approx(-by_db, abs=0.2)


def test_music_does_not_flutter_between_words_and_sentences() -> None:
    curve = decibels(words(14, SAID, room=-60), Ducking())
    together = curve[round(2.0 * RATE) : round(SAID[11][1] * RATE)]
    assert np.ptp(together) < 1e-4


def test_music_is_up_where_nobody_has_talked_for_hold_and_release() -> None:
    ducking = Ducking()
    curve = decibels(words(14, SAID, room=-60), ducking)
    for end, start in ((0.0, 2.0), (SAID[11][1], 10.0), (SAID[-1][1], 14.0 + SLACK)):
        after = end + (HOLD + ducking.release) / RATE + SLACK if end else 0.0
        before = start - ducking.attack / RATE - SLACK
        assert before > after
        assert (curve[round(after * RATE) : round(before * RATE)] == 0).all()


@pytest.mark.parametrize(("attack", "release"), [(0.05, 0.2), (0.15, 0.6), (0.5, 2.0)])
def test_it_comes_down_and_back_in_the_times_asked(attack: float, release: float) -> None:
    ducking = Ducking(12.0, round(attack * RATE), round(release * RATE))
    curve = decibels(words(12, sentence(4.0)), ducking)
    moving = np.flatnonzero((curve < 0) & (curve > -11.99999))
    down = moving[moving < 4.0 * RATE]
    back = moving[moving > 4.0 * RATE]
    # The ends of a raised cosine are flat: within 1e-5 dB of them there are a few thousandths of its length.
    assert len(down) == pytest.approx(ducking.attack, rel=0.01)
    assert len(back) == pytest.approx(ducking.release, rel=0.01)
    assert down[-1] <= 4.0 * RATE, "down before the word begins"


def test_no_step_is_larger_than_that_of_the_way_asked_for() -> None:
    ducking = Ducking()
    curve = decibels(words(14, SAID, room=-60), ducking)
    steepest = 15 * np.pi / 2 / ducking.attack
    assert np.abs(np.diff(curve)).max() <= steepest * 1.01
    assert np.abs(np.diff(curve, 2)).max() < 15 * np.pi**2 / 2 / ducking.attack**2 * 3 + 1e-5


def test_the_ways_are_half_done_in_decibels_at_half_their_time() -> None:
    way = 20 * np.log10(falling(4800, 15.0))
    assert way[[0, -1]] == pytest.approx([0.0, -15.0], abs=1e-5)
    assert way[2399:2401].mean() == pytest.approx(-7.5, abs=1e-4)
    assert (np.diff(way) <= 0).all()


@pytest.mark.parametrize(
    "voice",
    [silence(2 * RATE), words(2, [], room=-45), np.full((2 * RATE, 2), 0.3, np.float32)],
    ids=["silence", "a room", "an offset"],
)
def test_without_a_voice_the_music_stays_bit_for_bit(voice: np.ndarray) -> None:
    music = band_noise(2 * RATE, 30, 15_000)[:, None].repeat(2, 1).astype(np.float32)
    before = music.copy()
    assert np.array_equal(ducked(music, voice, Ducking()), before)


def test_the_music_that_was_handed_in_is_left_alone() -> None:
    music = steady(6 * RATE)
    ducked(music, words(6, sentence(2.0)), Ducking())
    assert (music == 1).all()


def test_a_voice_from_the_first_sample_to_the_last_finds_the_music_down() -> None:
    curve = decibels(words(3, [(n / 2, n / 2 + 0.4) for n in range(6)]), Ducking())
    assert curve == pytest.approx(-15.0, abs=1e-3)


def test_no_time_at_all_is_still_no_click() -> None:
    curve = decibels(words(6, sentence(2.0)), Ducking(15.0, 0, 0))
    assert np.abs(np.diff(curve)).max() < 15 * np.pi / 2 / (0.005 * RATE) * 1.01


def test_nothing_to_duck_stays_nothing() -> None:
    assert ducked(silence(0), silence(0), Ducking()).shape == (0, 2)


@pytest.mark.parametrize("by_db", [12.0, 15.0, 18.0])
def test_music_as_loud_as_the_voice_sits_that_far_under_it(by_db: float) -> None:
    """Speech leads: music is 12 to 18 dB under the voice (common practice). Two meters, ITU-R BS.1770: ffmpeg's
    ebur128 and pyloudnorm."""
    voice = words(12, [(n / 2, n / 2 + 0.4) for n in range(24)], level=-24)
    music = band_noise(12 * RATE, 60, 12_000, 7)[:, None].repeat(2, 1)
    meter = pyloudnorm.Meter(RATE)
    music = music * 10 ** ((meter.integrated_loudness(voice) - meter.integrated_loudness(music)) / 20)
    under = ducked(music.astype(np.float32), voice, Ducking(by_db=by_db))
    for loudness in (meter.integrated_loudness, lambda sound: measure(sound).integrated):
        assert loudness(voice) - loudness(under) == pytest.approx(by_db, abs=0.3)


@pytest.mark.parametrize("pause", [0.8, 1.25, 1.6, 2.3])
def test_in_a_pause_too_short_to_stand_up_in_music_stays_down(pause: float) -> None:
    """Up by 15 dB and down again within half a second is a swell in the middle of a thought."""
    curve = decibels(words(10, [(2.0, 3.0), (3.0 + pause, 5.0 + pause)], room=-60), Ducking())
    assert np.ptp(curve[2 * RATE : round((5.0 + pause) * RATE)]) < 1e-4


@pytest.mark.parametrize("pause", [2.6, 3.0, 5.0])
@pytest.mark.parametrize(("attack", "release"), [(0.15, 0.6), (0.05, 0.3)])
def test_where_music_comes_up_it_stands_for_as_long_as_a_bar_begins(
    pause: float, attack: float, release: float
) -> None:
    ducking = Ducking(15.0, round(attack * RATE), round(release * RATE))
    curve = decibels(words(12, [(2.0, 3.0), (3.0 + pause, 5.0 + pause)], room=-60), ducking)
    up = np.flatnonzero(curve[3 * RATE : round((3 + pause) * RATE)] == 0)
    assert len(up) >= STAND == round(1.2 * RATE)
    assert len(up) == pytest.approx((pause - attack - release) * RATE - HOLD, abs=2 * SLACK * RATE)
    assert (np.diff(up) == 1).all(), "once"


gaps = st.one_of(st.floats(0.05, 0.25), st.floats(2.6, 3.5))


@settings(max_examples=15)
@given(st.lists(st.tuples(st.floats(0.12, 0.5), gaps), min_size=1, max_size=6), st.integers(6, 20))
@pytest.mark.slow
def test_wherever_the_words_are_music_is_down_there_and_up_elsewhere(
    pairs: list[tuple[float, float]], by_db: int
) -> None:
    said, at = [], 1.0
    for length, gap in pairs:
        said.append((at, at + length))
        at += length + gap
    ducking = Ducking(float(by_db))
    curve = decibels(words(at + 1, said, room=-65), ducking)
    assert curve.max() <= 0 and curve.min() >= -by_db - 1e-4
    times = np.arange(len(curve)) / RATE
    free = np.ones(len(curve), bool)
    for start, end in said:
        assert curve[round(start * RATE) : round(end * RATE)] == pytest.approx(-by_db, abs=0.2)
        near = (start - ducking.attack / RATE - SLACK, end + (HOLD + ducking.release) / RATE + SLACK)
        free &= (times < near[0]) | (times > near[1])
    assert (curve[free] == 0).all()


def test_music_that_begins_when_the_talk_is_over_is_left_alone() -> None:
    """With `at: after the voice` the first beat, or the first click of a count-in, is as loud as the others."""
    ducking = Ducking()
    (*_, last) = talk_under(words(14, SAID, room=-60), ducking)
    music, click, sooner = steady(RATE), steady(100), steady(RATE)
    duck(music, last.end, [last], ducking)
    duck(click, last.end + 2000, [last], ducking, begun=last.end)
    duck(sooner, last.end - RATE // 2, [last], ducking)
    assert (music == 1).all() and (click == 1).all() and (sooner < 0.2).all()


def test_a_click_goes_with_the_music_that_it_counts() -> None:
    ducking = Ducking()
    (*_, last) = talk_under(words(14, SAID, room=-60), ducking)
    click = steady(100)
    duck(click, last.end + 2000, [last], ducking, begun=last.start)
    assert (click < 0.2).all()

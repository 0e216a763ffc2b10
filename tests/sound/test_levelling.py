"""Sound brought to a target by one gain, against three meters, with and without clicks over it."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pyloudnorm
import pytest

from studio.sound.levelling import MOST_LIMITED, to_target
from studio.sound.limiter import MARGIN_DB
from studio.sound.loudness import Levels, measure
from tests.sound.hearing import printed_by_ffmpeg, sines, with_hits


def brought(samples: np.ndarray, target: float, ceiling: float = -1.0) -> tuple[np.ndarray, Levels]:
    """A copy of the samples at the target, and what brought it there."""
    copy = samples.copy()
    return copy, to_target(copy, target, ceiling)


@pytest.mark.parametrize("target", [-14.0, -23.0])
def test_a_piece_comes_to_its_target_by_gain_alone(music_like, target: float) -> None:
    samples = music_like(48_000, 5) * np.float32(0.3)
    levelled, levels = brought(samples, target)
    assert not levels.held_by_peak and levels.limited_by_db == 0
    assert np.allclose(levelled, samples * 10 ** (levels.gain_db / 20), rtol=1e-5, atol=1e-7)
    reference = pyloudnorm.Meter(48_000).integrated_loudness(levelled)
    assert reference == pytest.approx(target, abs=0.1)
    assert levels.after.integrated == pytest.approx(target, abs=0.02)
    assert printed_by_ffmpeg(levelled)[0] == pytest.approx(target, abs=0.1)


@pytest.mark.parametrize("over", [0.5, 1.5, 3, 4])
@pytest.mark.slow
def test_a_limiter_holds_the_peaks_and_the_gain_makes_up_for_it(music_like, over: float) -> None:
    samples = with_hits(music_like(48_000, 6) * np.float32(0.5), 0.9, each=48_000)
    plain = measure(samples)
    target = plain.integrated - 1.0 - plain.true_peak + over
    levelled, levels = brought(samples, target, -1.0)
    assert not levels.held_by_peak
    assert over <= levels.limited_by_db < over + 1.5
    assert levels.gain_db >= target - plain.integrated - 0.02
    # All three meters: ours, ffmpeg's for people, and pyloudnorm's own BS.1770.
    assert levels.after.integrated == pytest.approx(target, abs=0.02)
    assert printed_by_ffmpeg(levelled)[0] == pytest.approx(target, abs=0.1)
    assert pyloudnorm.Meter(48_000).integrated_loudness(levelled) == pytest.approx(target, abs=0.1)
    assert levels.after.true_peak <= -1.0 and printed_by_ffmpeg(levelled)[1] <= -1.0


def test_a_limiter_takes_no_more_than_it_may(music_like) -> None:
    # Quiet music with a loud click: the target would take the click far over full scale.
    samples = music_like(48_000, 5) * np.float32(0.1)
    samples[100_000] = 0.7
    levelled, levels = brought(samples, -14.0, -1.0)
    assert levels.held_by_peak
    assert levels.after.integrated < -15
    assert levels.limited_by_db == pytest.approx(MOST_LIMITED + MARGIN_DB, abs=1e-3)
    assert -1.02 < levels.after.true_peak <= -1.0
    assert printed_by_ffmpeg(levelled)[1] <= -1.0


@pytest.mark.slow
def test_four_minutes_need_no_copy_of_themselves(music_like) -> None:
    # Peak memory of NumPy's arrays, as tracemalloc counts it, beside the sound that was there before.
    samples = np.tile(with_hits(music_like(48_000, 10) * np.float32(0.3), 0.9), (24, 1))
    tracemalloc.start()
    to_target(samples, -14.0)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 0.15 * samples.nbytes


def test_silence_stays_silence() -> None:
    silence = np.zeros((48_000, 2), np.float32)
    levelled, levels = brought(silence, -14.0)
    assert not levelled.any() and levels.gain_db == 0 and not levels.held_by_peak


def test_what_is_under_the_gate_is_not_pulled_up() -> None:
    levelled, levels = brought(sines([(-80, 2)]), -14.0)
    assert levels.gain_db == 0
    assert np.abs(levelled).max() < 2e-4


@pytest.mark.parametrize("seconds", [0.05, 0.2, 0.399])
def test_a_short_piece_is_judged_as_if_it_went_on(seconds: float) -> None:
    levelled, levels = brought(sines([(-40, seconds)]), -23.0)
    assert levels.before.integrated is None
    assert levels.gain_db == pytest.approx(17, abs=0.3)
    assert np.abs(levelled).max() == pytest.approx(10 ** (-23 / 20), rel=0.04)


def test_levelling_twice_changes_nothing(music_like) -> None:
    once, _ = brought(music_like(48_000, 3), -20.0)
    _, levels = brought(once, -20.0)
    assert levels.gain_db == pytest.approx(0, abs=0.02)


def tick(height: float) -> np.ndarray:
    line = height * np.sin(2 * np.pi * 1500 * np.arange(480) / 48_000) * np.hanning(480)
    return np.stack([line, line], 1).astype(np.float32)


@pytest.mark.parametrize("level", [-50.0, -20.0])
@pytest.mark.parametrize("over_music", [False, True])
def test_clicks_come_up_with_the_music_and_do_not_count(music_like, level: float, over_music: bool) -> None:
    # A count-in of four seconds, or clicks on each beat: the music is as loud as without them.
    music, lead = music_like(48_000, 8), 4 * 48_000
    music *= np.float32(10 ** ((level - measure(music).integrated) / 20))
    music[:lead] = 0
    alone, _ = brought(music[lead:], -20.0)
    at = range(0, len(music) if over_music else lead, 24_000)
    asked: list[float | None] = []

    def clicks(loudness: float | None) -> list[tuple[np.ndarray, int]]:
        asked.append(loudness)
        assert loudness is not None
        return [(tick(10 ** ((loudness + 9) / 20)), one) for one in at]

    counted = music.copy()
    levels = to_target(counted, -20.0, -1.0, clicks, lead)
    assert asked == [pytest.approx(level, abs=0.2)]
    assert levels.after.integrated == pytest.approx(-20, abs=0.02)
    assert levels.after.true_peak == pytest.approx(measure(counted).true_peak, abs=1e-4)
    if not over_music:
        assert measure(counted[lead:]).integrated == pytest.approx(-20, abs=0.05)
        assert np.allclose(counted[lead:], alone, atol=1e-4)
    # A click's sine has its peak 9 dB over the music's loudness, before it and after.
    assert 20 * np.log10(np.abs(counted[:480]).max()) == pytest.approx(-11, abs=0.1)


def test_clicks_on_loud_music_are_held_with_it_and_the_music_is_at_the_target(music_like) -> None:
    music = music_like(48_000, 8)
    clicks = [(tick(0.9), at) for at in range(0, len(music), 24_000)]
    levels = to_target(music, -12.0, -1.0, lambda _: clicks)
    assert levels.limited_by_db > 1
    assert levels.after.integrated == pytest.approx(
        -12, abs=0.02
    )  # as it is heard, turned down under the clicks
    assert levels.after.true_peak <= -1.0 and printed_by_ffmpeg(music)[1] <= -1.0


def test_clicks_sound_over_silence_too() -> None:
    silence = np.zeros((96_000, 2), np.float32)
    levels = to_target(silence, -14.0, -1.0, lambda _: [(tick(0.25), 24_000)])
    assert np.array_equal(silence[24_000:24_480], tick(0.25)) and not silence[:24_000].any()
    assert levels.after.integrated is None and levels.gain_db == 0
    assert levels.after.true_peak == pytest.approx(-12.04, abs=0.3)


def test_a_sound_is_lifted_by_no_more_than_it_may_be(music_like) -> None:
    quiet = music_like(48_000, 3) * np.float32(0.004)
    before = quiet.copy()
    levels = to_target(quiet, -14.0, most_lift=20.0)
    assert levels.gain_db == 20 and not levels.held_by_peak
    assert np.allclose(quiet, before * 10, rtol=1e-6)

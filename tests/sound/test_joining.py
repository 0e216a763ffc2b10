from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound.fading import SHORTEST
from studio.sound.joining import Joined, crossing
from studio.timeline.heard import Pass, Played, Source, Spoken
from tests.sound.hearing import tone

OVER = 1440
"""Samples of a cross-fade, 30 ms."""


def _pass(path: Path, sound: np.ndarray, start: int, length: int) -> Pass:
    if not path.exists():
        soundfile.write(path, sound, 48_000, subtype="FLOAT")
    return Pass((Source(str(path)),), start, length)


def _noise(seconds: float, seed: int = 3) -> np.ndarray:
    return np.random.default_rng(seed).normal(0, 0.1, (round(seconds * 48_000), 2)).astype(np.float32)


def _steps(sound: np.ndarray) -> float:
    """The largest step from a sample to the next."""
    return float(np.abs(np.diff(sound, axis=0)).max())


def test_the_joint_ends_on_the_beat_so_that_the_first_beat_comes_whole(tmp_path: Path) -> None:
    sound = _noise(2)
    one = _pass(tmp_path / "noise.wav", sound, 30_000, 20_000)
    heard = Joined((one, one), OVER, (1.0, 1.0)).read(0, 40_000)
    assert np.array_equal(heard[: 20_000 - OVER], sound[30_000 : 50_000 - OVER])
    assert np.array_equal(heard[20_000:], sound[30_000:50_000])
    # half way into the cross-fade: both, at gains that keep the power of two sounds of which a half is the same
    at = 20_000 - OVER // 2
    halves = (sound[50_000 - OVER // 2] + sound[30_000 - OVER // 2]) * 3**-0.5
    assert heard[at] == pytest.approx(halves, abs=1e-3)


def test_repeats_keep_time_to_the_sample_over_eight_passes(tmp_path: Path) -> None:
    sound = _noise(1)
    one = _pass(tmp_path / "noise.wav", sound, 10_007, 12_345)
    heard = Joined((one,) * 8, OVER, (1.0,) * 8).read(0, 8 * 12_345)
    for number in range(8):
        bar = heard[number * 12_345 :][: 12_345 - OVER]
        assert np.array_equal(bar, sound[10_007:][: len(bar)]), number


def test_no_step_at_a_joint_is_larger_than_in_the_source(tmp_path: Path) -> None:
    # The hard case: a low tone, whose own steps are tiny, joined where one pass ends high and the next begins low.
    sound = tone(55, 4, 0.9)
    path = tmp_path / "low.wav"
    half_a_wave = round(48_000 / 55 / 2)
    passes = (_pass(path, sound, 48_000, 40_000 + half_a_wave // 2), _pass(path, sound, 50_011, 30_000))
    bare = np.concatenate([sound[one.start : one.end] for one in passes])
    heard = Joined(passes, OVER, (1.0, 1.0)).read(0, len(bare))
    assert _steps(bare) > 50 * _steps(sound)
    # the ramps of the gains themselves add less than a thousandth of the level for each sample
    assert _steps(heard) < _steps(sound) + 0.9 * 2 * (np.pi / 2 / OVER)


def test_a_note_that_is_held_over_a_joint_does_not_bump(tmp_path: Path) -> None:
    # 200 Hz has 100 periods in each pass, so both sounds of the joint are the same: 2/sqrt(3), 1.2 dB, is all that it
    # may rise by, where the equal-power law has 3 dB.
    one = _pass(tmp_path / "held.wav", tone(200, 3, 0.5), 48_000, 24_000)
    heard = Joined((one, one), 480, (1.0, 1.0)).read(0, 48_000)
    assert np.abs(heard).max() <= 0.5 * 2 / 3**0.5 * 1.001
    # over a tenth of a second, as long as the ear takes to judge a level, it is 0.1 dB
    level = np.sqrt(np.mean(heard[24_000 - 2640 : 24_000 + 2160] ** 2)) / np.sqrt(np.mean(heard[:4800] ** 2))
    assert abs(20 * np.log10(level)) < 0.12


def test_a_pass_that_goes_on_where_the_last_one_ended_is_not_touched(tmp_path: Path) -> None:
    sound = _noise(2)
    one, more = (_pass(tmp_path / "noise.wav", sound, start, 24_000) for start in (20_000, 44_000))
    heard = Joined((one, more), OVER, (1.0, 1.0)).read(0, 48_000)
    assert heard == pytest.approx(sound[20_000:68_000], abs=1e-6)


def test_unrelated_sounds_keep_their_power_while_they_cross() -> None:
    old, new = _noise(2, 1), _noise(2, 2)
    power = [float(np.mean(part**2)) for part in np.split(crossing(old, new, 0.0), 20)]
    assert max(abs(10 * np.log10(one / 0.01)) for one in power) < 0.3


def test_sounds_that_are_half_alike_keep_their_power_too() -> None:
    old, other = _noise(2, 1), _noise(2, 2)
    new = (0.5 * old + 0.75**0.5 * other).astype(np.float32)  # of the same power, correlation 0.5
    power = [float(np.mean(part**2)) for part in np.split(crossing(old, new, 0.5), 20)]
    assert max(abs(10 * np.log10(one / 0.01)) for one in power) < 0.3


def test_a_pass_that_starts_where_its_recording_does_lets_the_old_one_ring_out(tmp_path: Path) -> None:
    sound = _noise(1)
    one = _pass(tmp_path / "noise.wav", sound, 0, 24_000)
    heard = Joined((one, one), OVER, (1.0, 1.0)).read(0, 48_000)
    assert np.array_equal(heard[:24_000], sound[:24_000])
    assert heard[24_000] == pytest.approx(
        sound[0] + sound[24_000], abs=1e-3
    )  # the recording has what comes after
    assert np.array_equal(heard[24_000 + OVER :], sound[OVER:24_000])


def test_a_recording_that_is_one_loop_ends_softly_before_it_starts_again(tmp_path: Path) -> None:
    sound = np.full((24_000, 2), 0.5, np.float32)
    one = _pass(tmp_path / "loop.wav", sound, 0, 24_000)
    heard = Joined((one, one), OVER, (1.0, 1.0)).read(0, 48_000)
    assert np.all(heard[: 24_000 - SHORTEST] == 0.5) and np.all(heard[24_000 : 48_000 - SHORTEST] == 0.5)
    # the file's own end fades, and the pass with it: their product is the cube of a cosine, the steepest slope of
    # which is 2 / sqrt(3) of a raised cosine's
    assert _steps(heard[:24_000]) < 0.5 * np.pi / 2 / SHORTEST * 2 / 3**0.5 * 1.01


def test_around_the_passes_comes_what_the_recording_has(tmp_path: Path) -> None:
    sound = _noise(1)
    one = _pass(tmp_path / "noise.wav", sound, 1000, 20_000)
    heard = Joined((one, one), OVER, (1.0, 1.0)).read(-1500, 45_000)
    assert not heard[:500].any()
    assert np.array_equal(heard[500:1500], sound[:1000])
    assert np.array_equal(heard[1500 + 40_000 :], sound[21_000:24_500])


def test_any_range_is_cut_from_the_same_sound(tmp_path: Path) -> None:
    sound = _noise(1)
    one, other = (_pass(tmp_path / "noise.wav", sound, start, 9_000) for start in (5000, 20_000))
    joined = Joined((one, other, one), OVER, (1.0, 0.5, 1.0))
    whole = joined.read(-100, 27_300)
    assert np.array_equal(
        np.concatenate([joined.read(at, min(777, 27_200 - at)) for at in range(-100, 27_200, 777)]), whole
    )
    assert np.array_equal(whole[100 + 9_000 : 100 + 18_000 - OVER], sound[20_000 : 29_000 - OVER] / 2)


def test_very_short_passes_still_follow_each_other(tmp_path: Path) -> None:
    sound = _noise(1)
    one = _pass(tmp_path / "noise.wav", sound, 5000, 100)
    heard = Joined((one,) * 4, OVER, (1.0,) * 4).read(0, 400)
    for number in range(4):
        assert np.array_equal(heard[number * 100 :][:50], sound[5000:5050])


def test_only_files_and_words_are_its_business() -> None:
    assert not Joined((Pass((Played(()),), 0, 10),), OVER, (1.0,)).sounds
    assert Joined((Pass((Played(()), Spoken("one two", 10)), 0, 10),), OVER, (1.0,)).sounds

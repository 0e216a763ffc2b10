"""Loudness against EBU Tech 3341's signals, a second meter, and what ffmpeg prints for people."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np
import pyloudnorm
import pytest

from studio.sound.ffmpeg import run_ffmpeg
from studio.sound.loudness import measure, to_target

# EBU Tech 3341, table 1: stereo 1 kHz sines (dBFS, seconds) and what they read, within 0.1 LU. From memory.
QUICK = [([(-23, 20)], -23.0), ([(-33, 20)], -33.0)]
LONG = [
    ([(-36, 10), (-23, 60), (-36, 10)], -23.0),
    ([(-72, 10), (-36, 10), (-23, 60), (-36, 10), (-72, 10)], -23.0),
    ([(-26, 20), (-20, 20.1), (-26, 20)], -23.0),
]


def sines(parts: Sequence[tuple[float, float]], frequency: float = 1000.0) -> np.ndarray:
    levels = np.concatenate(
        [np.full(round(48_000 * seconds), 10 ** (level / 20)) for level, seconds in parts]
    )
    tone = levels * np.sin(2 * np.pi * frequency * np.arange(len(levels)) / 48_000)
    return np.stack([tone, tone], 1).astype(np.float32)


def printed_by_ffmpeg(samples: np.ndarray) -> tuple[float, float]:
    """Integrated loudness and true peak as the bundled ffmpeg's ebur128=peak=true prints them, in tenths."""
    said = run_ffmpeg(
        ["-f", "f32le", "-ar", "48000", "-ac", "2", "-i", "pipe:0", "-af", "ebur128=peak=true:framelog=quiet",
         "-f", "null", "-"],
        [samples.astype("<f4").tobytes()],
    )  # fmt: skip
    return tuple(float(re.findall(rf"{word}:\s+(\S+) ", said.log)[-1]) for word in ("I", "Peak"))


@pytest.mark.parametrize(
    ("parts", "expected"), QUICK + [pytest.param(*signal, marks=pytest.mark.slow) for signal in LONG]
)
def test_the_signals_of_ebu_tech_3341(parts: Sequence[tuple[float, float]], expected: float) -> None:
    samples = sines(parts)
    ours = measure(samples)
    assert ours.integrated == pytest.approx(expected, abs=0.1)
    # Second meter: pyloudnorm, an implementation of BS.1770 of its own.
    assert ours.integrated == pytest.approx(pyloudnorm.Meter(48_000).integrated_loudness(samples), abs=0.1)
    # A stereo sine's loudness in LUFS is its level in dBFS, give or take the K filter at 1 kHz.
    assert ours.short_term_max == pytest.approx(max(level for level, _ in parts), abs=0.1)


def test_noise_reads_the_same_on_a_second_meter(music_like) -> None:
    samples = music_like(48_000, 5) * np.linspace(0.05, 1, 5 * 48_000, dtype=np.float32)[:, None]
    reference = pyloudnorm.Meter(48_000).integrated_loudness(samples)
    assert measure(samples).integrated == pytest.approx(reference, abs=0.1)


def test_the_true_peak_lies_between_the_samples() -> None:
    # A sine at a quarter of the sample rate, 45 degrees on: each sample is 3.01 dB under the peak (BS.1770).
    # Tech 3341 allows +0.2/-0.4 dB. From memory.
    at = np.arange(48_000 * 2)
    tone = 0.5 * np.sin(2 * np.pi * at / 4 + np.pi / 4) * np.minimum(1, np.minimum(at, at[::-1]) / 4800)
    peak = measure(np.stack([tone, tone], 1).astype(np.float32)).true_peak
    assert -6.02 - 0.4 <= peak <= -6.02 + 0.2


@pytest.mark.parametrize("level", [15, 0, -7.3, -20.04, -51])
def test_the_true_peak_is_what_ffmpeg_prints(music_like, level: float) -> None:
    samples = music_like(48_000, 1.05) * np.float32(10 ** (level / 20))
    assert measure(samples).true_peak == pytest.approx(printed_by_ffmpeg(samples)[1], abs=0.06)


def test_a_peak_on_the_very_last_sample_counts() -> None:
    samples = np.zeros((48_000, 2), np.float32)
    samples[-1] = 0.5
    assert measure(samples).true_peak >= -6.1


def test_loudness_range_of_two_levels_is_their_difference() -> None:
    # EBU Tech 3342, first signal: -20 then -30 dBFS, 20 s each, is 10 LU within 1. From memory.
    assert measure(sines([(-20, 20), (-30, 20)])).range == pytest.approx(10, abs=1)


def test_silence_and_short_pieces_have_no_loudness() -> None:
    assert measure(np.zeros((96_000, 2), np.float32)) == measure(np.zeros((0, 2), np.float32))
    nothing = measure(np.zeros((96_000, 2), np.float32))
    assert (nothing.integrated, nothing.short_term_max, nothing.range, nothing.true_peak) == (None,) * 4
    short = measure(sines([(-20, 0.39)]))
    assert short.integrated is None and short.true_peak == pytest.approx(-20, abs=0.1)
    assert measure(sines([(-20, 0.4)])).integrated == pytest.approx(-20, abs=0.1)
    assert measure(sines([(-20, 2.9)])).short_term_max is None
    assert measure(sines([(-20, 3.9)])).range is None


def test_blocks_measure_like_the_whole(music_like) -> None:
    samples = music_like(48_000, 5)
    assert measure(samples[at : at + 777] for at in range(0, len(samples), 777)) == measure(samples)


@pytest.mark.parametrize("target", [-14.0, -23.0])
def test_a_piece_comes_to_its_target(music_like, target: float) -> None:
    samples = music_like(48_000, 5) * np.float32(0.3)
    levelled, levels = to_target(samples, target)
    assert not levels.held_by_peak
    assert np.allclose(levelled, samples * 10 ** (levels.gain_db / 20), rtol=1e-5, atol=1e-7)
    reference = pyloudnorm.Meter(48_000).integrated_loudness(levelled)
    assert reference == pytest.approx(target, abs=0.1)
    assert levels.after.integrated <= target + 0.001
    assert printed_by_ffmpeg(levelled)[0] == pytest.approx(target, abs=0.1)


def test_the_ceiling_comes_first(music_like) -> None:
    # Quiet music with a loud click: the target would take the click over full scale.
    samples = music_like(48_000, 5) * np.float32(0.1)
    samples[100_000] = 0.7
    levelled, levels = to_target(samples, -14.0, -1.0)
    assert levels.held_by_peak
    assert levels.after.integrated < -15
    assert -1.0001 < levels.after.true_peak <= -1.0
    assert printed_by_ffmpeg(levelled)[1] <= -1.0


def test_silence_stays_silence() -> None:
    silence = np.zeros((48_000, 2), np.float32)
    levelled, levels = to_target(silence, -14.0)
    assert not levelled.any() and levels.gain_db == 0 and not levels.held_by_peak


def test_what_is_under_the_gate_is_not_pulled_up() -> None:
    levelled, levels = to_target(sines([(-80, 2)]), -14.0)
    assert levels.gain_db == 0
    assert np.abs(levelled).max() < 2e-4


@pytest.mark.parametrize("seconds", [0.05, 0.2, 0.399])
def test_a_short_piece_is_judged_as_if_it_went_on(seconds: float) -> None:
    levelled, levels = to_target(sines([(-40, seconds)]), -23.0)
    assert levels.before.integrated is None
    assert levels.gain_db == pytest.approx(17, abs=0.3)
    assert np.abs(levelled).max() == pytest.approx(10 ** (-23 / 20), rel=0.04)


def test_levelling_twice_changes_nothing(music_like) -> None:
    once, _ = to_target(music_like(48_000, 3), -20.0)
    _, levels = to_target(once, -20.0)
    assert levels.gain_db == pytest.approx(0, abs=0.002)

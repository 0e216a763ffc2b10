"""True peaks against the bundled ffmpeg's meter, and against waves whose tops are known."""

from __future__ import annotations

import numpy as np
import pytest
import soxr

from studio.sound.loudness import measure
from studio.sound.true_peak import REACH, STEP, step_peaks


def highest(samples: np.ndarray) -> float:
    """The true peak of a whole piece of sound, with silence around it."""
    rest = -len(samples) % STEP
    return float(step_peaks(np.pad(samples, ((REACH, rest + REACH), (0, 0)))).max(initial=0))


def decibels(samples: np.ndarray) -> float:
    return float(20 * np.log10(highest(samples)))


def both(line: np.ndarray) -> np.ndarray:
    return np.stack([line, line], 1).astype(np.float32)


SIGNALS = {
    "noise": np.random.default_rng(1).normal(0, 0.2, (48_000, 2)).astype(np.float32),
    "square": both(np.sign(np.random.default_rng(2).normal(size=48_000))),
    "one sample": both(np.eye(1, 4800, 2400)[0]),
    "last sample": both(np.eye(1, 4800, 4799)[0]),
    "high tone": both(np.sin(np.arange(48_000) * 2.1) * np.hanning(48_000)),
}


@pytest.mark.parametrize("signal", SIGNALS.values(), ids=SIGNALS)
def test_it_is_what_ffmpeg_s_meter_finds(signal: np.ndarray) -> None:
    assert decibels(signal) == pytest.approx(measure(signal).true_peak, abs=0.001)


def test_a_top_between_the_samples_is_found() -> None:
    # A sine at a quarter of the rate, 45 degrees on: each sample is 3.01 dB under its tops (BS.1770, annex 2).
    tone = np.sin(np.pi / 2 * np.arange(9600) + np.pi / 4) * np.hanning(9600)
    assert decibels(both(tone)) == pytest.approx(0, abs=0.02)


def test_a_second_converter_agrees_below_20_khz() -> None:
    # soxr at four times the rate, on noise that it has itself freed of what lies over 20 kHz.
    noise = np.random.default_rng(3).normal(0, 0.2, (36_000, 2)).astype(np.float32)
    noise = soxr.resample(noise, 36_000, 48_000, quality="VHQ")
    reference = np.abs(soxr.resample(np.pad(noise, ((500, 500), (0, 0))), 1, 4, quality="VHQ")).max()
    assert decibels(noise) == pytest.approx(20 * np.log10(reference), abs=0.1)


def test_each_channel_and_each_step_has_its_own() -> None:
    samples = np.zeros((REACH + 3 * STEP + REACH, 2), np.float32)
    samples[REACH + STEP + 20, 1] = -0.5
    peaks = step_peaks(samples)
    assert peaks.shape == (3, 2)
    assert peaks[1, 1] == np.float32(0.5) and not peaks[:, 0].any()
    assert peaks[0, 1] < 0.1 and peaks[2, 1] < 0.1  # the ringing of the filter


def test_silence_has_none() -> None:
    assert highest(np.zeros((100, 2), np.float32)) == 0

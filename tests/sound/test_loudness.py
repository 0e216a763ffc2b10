"""Loudness against EBU Tech 3341's signals, a second meter, and what ffmpeg prints for people."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import pyloudnorm
import pytest
import soundfile

from studio.sound.error import SoundError
from studio.sound.loudness import judged, measure, measure_file, measure_without_clicks
from tests.sound.hearing import printed_by_ffmpeg, sines, with_hits

# EBU Tech 3341, table 1: stereo 1 kHz sines (dBFS, seconds) and what they read, within 0.1 LU. From memory.
QUICK = [([(-23, 20)], -23.0), ([(-33, 20)], -33.0)]
LONG = [
    ([(-36, 10), (-23, 60), (-36, 10)], -23.0),
    ([(-72, 10), (-36, 10), (-23, 60), (-36, 10), (-72, 10)], -23.0),
    ([(-26, 20), (-20, 20.1), (-26, 20)], -23.0),
]


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


def test_a_file_measures_like_its_samples(music_like, tmp_path: Path) -> None:
    samples = music_like(48_000, 5)
    soundfile.write(tmp_path / "noise.wav", samples, 48_000, subtype="FLOAT")
    assert measure_file(tmp_path / "noise.wav") == measure(samples)
    with pytest.raises(SoundError, match="measure the loudness"):
        measure_file(tmp_path / "none.wav")


@pytest.mark.parametrize("seconds", [0.05, 0.2, 0.399])
def test_a_short_piece_is_judged_as_if_it_went_on(seconds: float) -> None:
    assert measure(sines([(-40, seconds)])).integrated is None
    assert judged(sines([(-40, seconds)])) == pytest.approx(-40, abs=0.3)


def test_a_longer_piece_is_judged_by_its_loudness(music_like) -> None:
    samples = music_like(48_000, 1)
    assert judged(samples) == measure(samples).integrated
    assert judged(np.zeros((100, 2), np.float32)) is None and judged(np.zeros((0, 2), np.float32)) is None


def test_clicks_over_a_sound_count_for_its_peaks_alone(music_like) -> None:
    music, lead = music_like(48_000, 5), 48_000
    music[:lead] = 0
    heard = with_hits(music, 0.9)
    both = np.concatenate([heard, music], axis=1)
    found = measure_without_clicks((both[at : at + 7001] for at in range(0, len(both), 7001)), lead)
    alone, all_of_it = measure(music[lead:]), measure(heard)
    assert found == replace(alone, true_peak=all_of_it.true_peak)
    assert all_of_it.true_peak > alone.true_peak + 1

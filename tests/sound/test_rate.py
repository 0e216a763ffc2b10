from __future__ import annotations

from math import pi

import numpy as np
import pytest
import soundfile
import soxr

from studio.sound import source
from studio.sound.rate import Grid, convert_whole

RATES = [8_000, 22_050, 32_000, 44_100, 44_101, 88_200, 96_000, 192_000]


@pytest.mark.parametrize("rate", RATES)
def test_a_range_is_the_same_range_of_the_whole_file_converted(tmp_path, music_like, rate: int) -> None:
    # Reference: soxr on the whole file at once. 1e-5 is -100 dBFS; most rates agree to the last bit.
    sound = music_like(rate, 4)
    soundfile.write(tmp_path / "sound.wav", sound, rate, subtype="FLOAT")
    whole = soxr.resample(sound, rate, 48_000, quality="VHQ")
    for start, count in ((50_003, 100_000), (47_999, 2), (96_000, 48_000)):
        assert np.abs(source.read(tmp_path / "sound.wav", start, count) - whole[start:][:count]).max() < 1e-5


@pytest.mark.parametrize("rate", RATES)
def test_output_sample_n_is_the_sound_at_n_48000ths_of_a_second(tmp_path, rate: int) -> None:
    # Reference: the sine itself, sin(2 pi f t), evaluated at the times of the output samples.
    times = np.arange(rate * 3) / rate
    soundfile.write(tmp_path / "sine.wav", 0.5 * np.sin(2 * pi * 997 * times), rate, subtype="DOUBLE")
    heard = source.read(tmp_path / "sine.wav", 61_237, 30_000)
    expected = 0.5 * np.sin(2 * pi * 997 * (np.arange(30_000) + 61_237) / 48_000)
    assert np.abs(heard[:, 0] - expected).max() < 2e-6


@pytest.mark.parametrize("rate", RATES)
def test_blocks_of_the_grid_last_equally_long_at_both_rates(rate: int) -> None:
    grid = Grid.of(rate)
    assert grid.block_out * rate == grid.block_in * 48_000
    assert grid.block_out >= 48_000


def test_the_end_of_a_file_is_its_last_sample_inside_its_length(music_like) -> None:
    assert len(convert_whole(music_like(44_100, 1), 44_100)) == 48_000
    assert len(convert_whole(np.zeros((1, 2), np.float32), 44_100)) == 2
    assert len(convert_whole(np.zeros((0, 2), np.float32), 44_100)) == 0

from __future__ import annotations

import numpy as np
import pytest

from studio.sound.fading import fade, faded, rise


def test_a_fade_in_and_the_mirrored_fade_out_add_up_to_one() -> None:
    assert rise(480) + rise(480)[::-1] == pytest.approx(np.ones(480), abs=1e-6)
    assert np.all(np.diff(rise(480)) > 0)


def test_it_is_a_raised_cosine() -> None:
    # Reference: the Hann window of numpy, which is a raised cosine up and down, sampled between its samples.
    assert rise(240) == pytest.approx(np.hanning(2 * 480 + 1)[1:480:2], abs=1e-6)


def test_what_is_not_faded_is_left_alone_to_the_bit() -> None:
    sound = np.full((1000, 2), 0.3, np.float32)
    fade(sound, 100, 200)
    assert np.all(sound[100:-200] == np.float32(0.3))
    assert sound[0, 0] < 1e-4 and sound[-1, 0] < 1e-4


def test_a_copy_leaves_its_source_alone() -> None:
    sound = np.ones((100, 2), np.float32)
    assert faded(sound, 50, 50)[0, 0] < 1e-3
    assert np.all(sound == 1)


def test_no_fade_and_a_fade_of_nothing() -> None:
    sound = np.ones((10, 2), np.float32)
    fade(sound, 0, 0)
    assert np.all(sound == 1)
    assert rise(0).shape == (0,)

"""What in a camera's sound is worth bringing up."""

from __future__ import annotations

import numpy as np
import pytest

from studio.sound.loudness import judged
from studio.sound.room_tone import MOST_LIFT, camera_lift
from tests.sound.a_voice import RATE, band_noise, sentence, words


def lift(samples: np.ndarray) -> float:
    return camera_lift(samples, judged(samples))


def room(level: float) -> np.ndarray:
    noise = band_noise(5 * RATE, 20, 20_000) * 10 ** (level / 20)
    return np.stack([noise, noise], 1).astype(np.float32)


@pytest.mark.parametrize("level", [-75.0, -66.0, -55.0, -52.0])
def test_hiss_is_left_alone(level: float) -> None:
    assert lift(room(level)) == 0


@pytest.mark.parametrize("level", [-60.0, -40.0, -20.0])
def test_a_voice_is_lifted_however_soft(level: float) -> None:
    assert lift(words(8, [*sentence(1), *sentence(4)], level=level, room=level - 25)) == MOST_LIFT


def test_music_that_nobody_talks_over_is_lifted_by_its_loudness() -> None:
    at = np.arange(5 * RATE) / RATE
    organ = np.stack([np.sin(2 * np.pi * 440 * at)] * 2, 1).astype(np.float32)
    assert lift(organ * np.float32(0.01)) == MOST_LIFT  # -40 LUFS
    assert lift(organ * np.float32(0.004)) == 0  # -48 LUFS: a hum


def test_silence_is_left_alone() -> None:
    assert lift(np.zeros((RATE, 2), np.float32)) == 0 and lift(np.zeros((0, 2), np.float32)) == 0

"""A bank of partials against the plain sum of its sines."""

from __future__ import annotations

import numpy as np
import pytest

from studio.sound.instrument.partials import Partials, joined, rung
from studio.timeline.heard import RATE


def bank(count: int, seed: int = 1) -> Partials:
    rng = np.random.default_rng(seed)
    return Partials(
        hertz=rng.uniform(30, 17_000, count),
        decay=rng.uniform(0, 30, count),
        middle=rng.uniform(0, 1, count) / count,
        side=rng.uniform(-0.3, 0.3, count) / count,
        phase=rng.uniform(0, 2 * np.pi, count),
    )


def summed(bank: Partials, length: int) -> np.ndarray:
    """Left and right, one sine after the other."""
    time = np.arange(length) / RATE
    both = np.zeros((length, 2))
    columns = (bank.hertz, bank.decay, bank.middle, bank.side, bank.phase)
    for hertz, decay, middle, side, phase in zip(*columns, strict=True):
        sine = np.exp(-decay * time) * np.sin(2 * np.pi * hertz * time + phase)
        both += sine[:, None] * [middle + side, middle - side]
    return both


@pytest.mark.parametrize("count", [0, 1, 40, 300, 700])
@pytest.mark.parametrize("length", [0, 1, 255, 2049, 60_000])
def test_a_bank_is_the_sum_of_its_sines(count: int, length: int) -> None:
    np.testing.assert_allclose(rung(bank(count), length), summed(bank(count), length), atol=2e-5)


def test_joined_banks_sound_together() -> None:
    one, other = bank(12), bank(9, seed=2)
    together = rung(joined(one, other), 5000)
    np.testing.assert_allclose(together, rung(one, 5000) + rung(other, 5000), atol=1e-6)


def test_what_no_sample_rate_can_hold_is_left_out() -> None:
    high = Partials(*(np.array([value]) for value in (23_000.0, 0.0, 1.0, 0.0, 0.0)))
    assert not rung(high, 1000).any()


def test_a_long_note_does_not_drift() -> None:
    """After a minute a sine is still where it should be to a hundredth of a turn."""
    one = Partials(*(np.array([value]) for value in (1234.567, 0.0, 0.5, 0.0, 0.3)))
    last = rung(one, 60 * RATE)[-1000:, 0]
    time = np.arange(60 * RATE - 1000, 60 * RATE) / RATE
    np.testing.assert_allclose(last, 0.5 * np.sin(2 * np.pi * 1234.567 * time + 0.3), atol=1e-3)

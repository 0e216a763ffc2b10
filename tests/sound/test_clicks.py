from __future__ import annotations

import numpy as np
import pytest

from studio.sound.bed import lay
from studio.sound.clicks import LENGTH, STRONG, WEAK, tick, ticks
from studio.timeline.heard import Click
from tests.sound.hearing import cents_off


def test_a_click_begins_on_its_very_sample_and_leaves_no_rest() -> None:
    heard = lay(48_000, ticks((Click(0, True), Click(12_345, False), Click(47_990, True)), -6.0))
    sounding = np.flatnonzero(heard[:, 0])
    assert sounding[0] == 0
    assert sounding[sounding >= LENGTH][0] == 12_345
    assert not heard[LENGTH:12_345].any() and heard[47_990, 0] != 0


@pytest.mark.parametrize("strong", [True, False])
def test_its_level_is_that_of_its_peak(strong: bool) -> None:
    ((sound, at),) = ticks((Click(7, strong),), -20.0)
    assert at == 7 and np.abs(sound).max() == pytest.approx(0.1, rel=1e-5)  # -20 dB is a tenth
    assert np.abs(sound[: LENGTH // 40]).max() == np.abs(sound).max()  # within 1.5 ms of its start


def test_the_two_blocks_are_a_fourth_apart() -> None:
    assert 1200 * np.log2(STRONG / WEAK) == pytest.approx(498, abs=1)  # 4:3 is 498.0 cents
    # a tick this short has no sharp pitch: a quarter tone is what can be asked of its spectrum
    assert abs(cents_off(tick(True), STRONG)) < 50 and abs(cents_off(tick(False), WEAK)) < 50


def test_it_dies_away_without_a_step() -> None:
    assert np.abs(tick(True)[-1]).max() < 1e-4
    assert np.array_equal(tick(True)[:, 0], tick(True)[:, 1])

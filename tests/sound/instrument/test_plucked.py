"""The plucked timbre's partials."""

from __future__ import annotations

import numpy as np
import pytest

from studio.sound.instrument.play import played
from studio.timeline.heard import RATE, Tone


def levels(midi: int, start: int, count: int) -> np.ndarray:
    """Decibels of each of the first partials, in a tenth of a second from a sample on."""
    note = played([Tone(0, RATE, midi)], "plucked", "", RATE).mean(axis=1)[start : start + RATE // 10]
    first = 440 * 2 ** ((midi - 69) / 12)
    turn = np.exp(-2j * np.pi * first * np.arange(1, count + 1)[:, None] * np.arange(len(note)) / RATE)
    return 20 * np.log10(np.abs(turn @ (note * np.hanning(len(note)))))


@pytest.mark.parametrize("midi", [45, 52, 57])
def test_the_partial_that_has_a_node_where_it_is_plucked_is_weak(midi: int) -> None:
    """A string plucked at 1/n of its length hardly has its n-th partial (Fletcher and Rossing, *The Physics of Musical
    Instruments*, chapter 2; from memory). Plucked close to a fifth, it is the fifth."""
    level = levels(midi, 0, 7)
    assert level[4] < min(level[3], level[5]) - 6


@pytest.mark.parametrize("midi", [45, 57, 69])
def test_upper_partials_die_sooner(midi: int) -> None:
    """As in the loop of Karplus and Strong, whose loss filter takes more of the treble at each turn."""
    fallen = levels(midi, 0, 4) - levels(midi, RATE // 2, 4)
    assert list(fallen) == sorted(fallen)
    assert fallen[3] > 1.25 * fallen[0]

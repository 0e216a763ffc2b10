"""The struck timbre's partials."""

from __future__ import annotations

import numpy as np
import pytest

from studio.sound.instrument.play import played
from studio.timeline.heard import RATE, Tone
from tests.sound.instrument.measuring import cents_between, pitch_of


@pytest.mark.parametrize("midi", [45, 57, 69])
def test_upper_partials_are_stretched_as_a_stiff_string_has_them_but_only_a_little(midi: int) -> None:
    """f(n) = n·f·√(1 + B·n²) in Fletcher and Rossing, *The Physics of Musical Instruments*, chapter 2 (from memory).

    The stretch grows with the square of n, so that the sixth partial has (36 − 1)/(9 − 1) times that of the third.
    """
    note = played([Tone(0, 2 * RATE, midi)], "struck", "", 2 * RATE).mean(axis=1)[RATE // 20 : RATE]
    first = 440 * 2 ** ((midi - 69) / 12)
    third, sixth = (cents_between(pitch_of(note, n * first), n * first) for n in (3, 6))
    assert 0 < third < sixth < 6
    assert sixth / third == pytest.approx(35 / 8, rel=0.1)


def test_it_dies_in_two_stages() -> None:
    """Weinreich, *Coupled piano strings* (1977): a prompt sound, and a slower one after it."""
    note = played([Tone(0, 3 * RATE, 57)], "struck", "", 3 * RATE)
    level = [
        20 * np.log10(np.sqrt(np.mean(note[at : at + RATE // 10] ** 2)))
        for at in range(0, 3 * RATE, RATE // 2)
    ]
    falls = -np.diff(level)
    assert falls[0] > 1.5 * falls[-1] > 0

"""The tick of a count-in: a small block of wood, made here, so that nobody's sample is in anybody's clip.

Struck wood rings in a few partials that are no overtones of each other and die within hundredths of a second, the
higher ones first. Two of them are enough to be heard through a mix; the first beat of a bar is the higher block.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache

import numpy as np

from studio.sound.samples import Samples
from studio.timeline.heard import RATE, Click

STRONG, WEAK = 1480.0, 1110.0
"""Hertz of the two blocks, a fourth apart, where hearing is keen and bass and drums are not in the way."""
PARTIAL = 2.57
"""How much higher the second partial is."""
RINGS, PARTIAL_RINGS = 0.009, 0.003
"""Seconds in which the two partials fall to 1/e."""
LENGTH = RATE * 60 // 1000
"""Samples of a tick."""
ABOVE_LOUDNESS = 9.0
"""Decibels from the music's loudness to the peak of a click at `click_db` 0: under the peaks of most mixes, so that a
count-in never startles and no limiter works for it (common practice)."""


def ticks(clicks: Iterable[Click], gain_db: float) -> Iterator[tuple[Samples, int]]:
    """Each click's sound, shape (n, 2), and the sample where it is laid: its first sample sounds already.

    At `gain_db` 0 it peaks at full scale.
    """
    gain = np.float32(10 ** (gain_db / 20))
    for one in clicks:
        yield tick(one.strong) * gain, one.at


@cache
def tick(strong: bool) -> Samples:
    """One tick, shape (n, 2), the same on both sides, with its peak at ±1."""
    at = (np.arange(LENGTH) + 0.5) / RATE  # half a sample late, so that the very first sample is not 0
    pitch = STRONG if strong else WEAK
    body = np.sin(2 * np.pi * pitch * at) * np.exp(-at / RINGS)
    edge = np.sin(2 * np.pi * PARTIAL * pitch * at) * np.exp(-at / PARTIAL_RINGS)
    sound = body + 0.5 * edge
    sound *= np.minimum((LENGTH - np.arange(LENGTH)) / (LENGTH / 4), 1)  # to silence, not to almost silence
    sound /= np.abs(sound).max()
    return np.repeat(sound.astype(np.float32)[:, None], 2, axis=1)

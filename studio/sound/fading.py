"""Changes of level that nobody hears as a click: raised cosines.

The raised cosine is flat at both of its ends, so neither the silence outside nor the full level inside is met with
a corner. An equal-power curve leaves silence at a slope: it is for two sounds that cross.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from studio.sound.samples import Samples
from studio.timeline.heard import RATE

SHORTEST = RATE * 5 // 1000
"""Samples of the quickest change of level, 5 ms: anything quicker is heard as a click (common practice)."""


def fade(samples: Samples, fade_in: int, fade_out: int) -> None:
    """Fade the first `fade_in` and the last `fade_out` of samples, shape (n, 2), in place; neither is more than n.

    Where the two meet, both count.
    """
    if fade_in:
        samples[:fade_in] *= rise(fade_in)[:, None]
    if fade_out:
        samples[-fade_out:] *= rise(fade_out)[::-1, None]


def faded(samples: Samples, fade_in: int, fade_out: int) -> Samples:
    """A copy of the samples, faded as `fade` does."""
    result = samples.copy()
    fade(result, fade_in, fade_out)
    return result


def rise(length: int) -> npt.NDArray[np.float32]:
    """Gains of a fade-in of `length` samples, from nearly 0 to nearly 1, symmetric about the middle."""
    return raised_cosine((np.arange(length) + 0.5) / max(length, 1)).astype(np.float32)


def raised_cosine(phase: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """From 0 to 1 while `phase` goes from 0 to 1; what lies outside is 0 or 1."""
    result: npt.NDArray[np.float64] = 0.5 - 0.5 * np.cos(np.pi * np.clip(phase, 0, 1))
    return result

"""An excerpt: the same stretch of one or more sources, added together, with its ends faded."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from studio.sound import source
from studio.sound.error import SoundError
from studio.sound.samples import Samples, silence
from studio.timeline.heard import Cut


def render(cut: Cut) -> Samples:
    """Samples of the cut, shape (length, 2), at 48 kHz; the first is exactly sample `cut.start` of the
    sources.

    Sources are added at their gains; nothing clips. Raises SoundError when a source cannot be read, when the
    cut leaves it, or when a fade is longer than the cut.
    """
    if cut.length <= 0:
        raise SoundError("An excerpt needs a length: its end must come after its start.")
    if min(cut.fade_in, cut.fade_out) < 0 or max(cut.fade_in, cut.fade_out) > cut.length:
        raise SoundError("A fade is longer than its excerpt; make the fade shorter or the excerpt longer.")
    mix = silence(cut.length)
    for each in cut.sources:
        mix += source.read(each.path, cut.start, cut.length) * np.float32(10 ** (each.gain_db / 20))
    return faded(mix, cut.fade_in, cut.fade_out)


def faded(samples: Samples, fade_in: int, fade_out: int) -> Samples:
    """A copy of the samples with a raised-cosine fade over their first `fade_in` and last `fade_out` samples.

    The raised cosine is flat at both of its ends, so neither the silence outside nor the full level inside is
    met with a corner: an equal-power curve leaves silence at a slope, and is for two sounds that cross.
    """
    result = samples.copy()
    if fade_in:
        result[:fade_in] *= rise(fade_in)[:, None]
    if fade_out:
        result[-fade_out:] *= rise(fade_out)[::-1, None]
    return result


def rise(length: int) -> npt.NDArray[np.float32]:
    """Gains of a fade-in of `length` samples, from nearly 0 to nearly 1, symmetric about the middle."""
    phase = (np.arange(length) + 0.5) / length
    return (0.5 - 0.5 * np.cos(np.pi * phase)).astype(np.float32)

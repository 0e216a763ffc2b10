"""A plucked string, between nylon and steel.

It is the string of Karplus and Strong (1983) as Jaffe and Smith extended it (1983): a loop one period long with a loss
at each turn, plucked at a point of its own. The sound of such a loop is the sum of its modes, and it is worked out as
that sum: a mode at each whole multiple of the pitch, as the delay is exactly one period, dying as fast as the loss
filter says at its frequency, and as loud as the place and softness of the plectrum make it.
"""

from __future__ import annotations

import numpy as np

from studio.sound.instrument.body import radiated
from studio.sound.instrument.partials import HIGHEST, Partials
from studio.sound.instrument.timbre import Timbre
from studio.sound.instrument.width import spread

_PLUCKED_AT = 0.21  # of the string's length: over the sound hole, where it is round
_SPREAD = 0.22  # how far apart the partials lie in stereo


def _partials(hertz: float, loud: float) -> Partials:
    number = np.arange(1.0, max(int(HIGHEST / hertz), 1) + 1)
    at = hertz * number
    finger = 1200 + 4200 * loud**1.5  # Hz above which the fingertip is too soft to speak
    level = np.abs(np.sin(np.pi * number * _PLUCKED_AT)) / number / (1 + (at / finger) ** 2) * radiated(at)
    lasts = np.clip(7.0 * (110 / hertz) ** 0.5, 1.0, 9.0)  # seconds in which the fundamental falls by 60 dB
    decay = 6.9 / lasts + 4.5 * (at / 2000) ** 1.5
    # The partials start in a spread of phases, as a finger leaves a string over a stretch of time, not at once.
    phase = 0.35 * number * (number - 1)
    side = spread(at, level, _SPREAD)
    return Partials(at, decay, level, side, phase)


PLUCKED = Timbre(_partials, level=0.083, attack=0.0012, release=0.09, strum=0.01)

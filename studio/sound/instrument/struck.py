"""A struck string under felt: a soft piano.

Partials of a stiff string lie above the whole multiples: f(n) = n·f·√(1 + B·n²) (Fletcher and Rossing, *The Physics
of Musical Instruments*). B is kept small here, so that chords stay clear. Each partial dies in two stages, fast while
the string swings towards the soundboard, then slowly (Weinreich 1977); upper ones die sooner.
"""

from __future__ import annotations

import numpy as np

from studio.sound.instrument.body import radiated
from studio.sound.instrument.partials import Partials, joined
from studio.sound.instrument.timbre import Timbre
from studio.sound.instrument.width import spread

_MOST = 40
_TOP = 10_000.0  # Hz
_STRUCK_AT = 1 / 8.6  # of the string's length
_SPREAD = 0.25
_AFTER = 0.5  # of the level that is in the slow stage


def _partials(hertz: float, loud: float) -> Partials:
    number = np.arange(1.0, min(max(int(_TOP / hertz), 1), _MOST) + 1)
    stiff = 6e-5 * (hertz / 220) ** 0.8  # B; the pitch itself stays where it should be
    at = hertz * number * np.sqrt((1 + stiff * number**2) / (1 + stiff))
    felt = 400 + 1800 * loud**1.6 + 0.6 * hertz  # Hz: the softer the blow, the softer the felt
    level = np.abs(np.sin(np.pi * number * _STRUCK_AT)) / number * np.exp(-at / felt) * radiated(at)
    lasts = np.clip(21.0 * (110 / hertz) ** 0.45, 3.75, 24.0)  # seconds to fall by 60 dB, in the slow stage
    slow = 6.9 / lasts * (1 + 0.28 * (number - 1)) + 1.35 * (at / 3000) ** 1.3
    phase = 0.5 * number * (number - 1)
    side = spread(at, level, _SPREAD)
    prompt = Partials(at, slow * 2.5, level * (1 - _AFTER), side * (1 - _AFTER), phase)
    after = Partials(at, slow, level * _AFTER, side * _AFTER, phase)
    return joined(prompt, after)


STRUCK = Timbre(_partials, level=0.055, attack=0.0025, release=0.16)

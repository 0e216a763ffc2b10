"""A held sound between a soft organ and a string section: it speaks at once, opens over a tenth of a second, and moves
slowly without going out of tune.

The movement lies beside each partial, in a pair of side tones a fraction of a hertz below and above it: left and right
drift apart and together, while the middle, and with it the mean pitch, stays where it is.
"""

from __future__ import annotations

import numpy as np

from studio.sound.instrument.body import radiated
from studio.sound.instrument.partials import Floats, Partials, joined
from studio.sound.instrument.timbre import Timbre

_MOST = 60
_TOP = 9_000.0  # Hz
_WAVERING = 0.35  # side tones against their partial, at most
_CENTS = 0.0012  # of its frequency, by which the pitch of a partial wavers at either side: 2 cents


def _partials(hertz: float, loud: float) -> Partials:
    number = np.arange(1.0, min(max(int(_TOP / hertz), 1), _MOST) + 1)
    at = hertz * number
    open_to = 900 + 1900 * loud + 0.2 * hertz
    even = np.where(number % 2 == 0, 0.7, 1.0)  # pipes that are half closed have weaker even partials
    level: Floats = even * number**-1.1 * np.exp(-at / open_to) * radiated(at)
    phase = 2.4 * number**2
    steady = np.zeros(len(number))
    opening = 1 / (0.03 + 0.012 * np.minimum(number, 15))
    held = Partials(at, steady, level, steady, phase)
    late = Partials(at, opening, -0.5 * level, steady, phase)
    return joined(held, late, *_wavering(at, level, phase, number))


def _wavering(at: Floats, level: Floats, phase: Floats, number: Floats) -> list[Partials]:
    """Two side tones for each partial, as phase modulation makes them, at opposite sides left and right."""
    speed = 0.45 + 0.35 * np.mod(
        number * 0.618, 1.0
    )  # Hz; each partial has its own, so that nothing pulses together
    depth = np.minimum(_WAVERING, _CENTS * at / speed)
    turn = 1.9 * number
    none = np.zeros(len(number))
    above = Partials(at + speed, none, none, level * depth / 2, phase + turn)
    below = Partials(at - speed, none, none, -level * depth / 2, phase - turn)
    return [above, below]


SUSTAINED = Timbre(_partials, level=0.038, attack=0.008, release=0.14)

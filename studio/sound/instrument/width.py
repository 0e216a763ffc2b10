"""How the partials of one key stand between left and right."""

from __future__ import annotations

import numpy as np

from studio.sound.instrument.partials import Floats

_CENTRED = 150.0  # Hz: what lies well below it stays in the middle, where low notes belong in a mix


def spread(hertz: Floats, level: Floats, width: float) -> Floats:
    """The side levels of partials: upper ones lean left and right by turns, at most by about `width` of their level.

    Both sides are equally loud, and the sum of the two is what it would be without width.
    """
    leaning = np.sin(2.4 * np.arange(len(hertz))) * hertz / (hertz + _CENTRED)
    leaning -= np.sum(leaning * level**2) / np.sum(level**2)
    side: Floats = width * leaning * level
    return side

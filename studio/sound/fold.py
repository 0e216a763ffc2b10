"""Any number of channels folded to two.

Mono goes to both sides at full level. Surround is folded as ITU-R BS.775-3, annex 4, table 2 has it
(coefficients from memory; the tests compare them with ffmpeg's own fold-down): centre and surrounds at -3 dB,
a single rear centre at -6 dB to each side, and the low-frequency effects channel is left out.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from studio.sound.samples import Samples

HALF_POWER = 0.5**0.5
GAINS: dict[str, tuple[float, float]] = {
    "FL": (1.0, 0.0),
    "FR": (0.0, 1.0),
    "DL": (1.0, 0.0),  # a stereo fold-down that the file already carries
    "DR": (0.0, 1.0),
    "FC": (HALF_POWER, HALF_POWER),
    "LFE": (0.0, 0.0),
    "LFE2": (0.0, 0.0),
    "BC": (0.5, 0.5),
}
ORDERS: dict[int, tuple[str, ...]] = {
    # Files that do not name their channels keep the order of WAVE_FORMAT_EXTENSIBLE; FLAC too (RFC 9639).
    3: ("FL", "FR", "FC"),
    4: ("FL", "FR", "BL", "BR"),
    5: ("FL", "FR", "FC", "BL", "BR"),
    6: ("FL", "FR", "FC", "LFE", "BL", "BR"),
    7: ("FL", "FR", "FC", "LFE", "BC", "SL", "SR"),
    8: ("FL", "FR", "FC", "LFE", "BL", "BR", "SL", "SR"),
}


def to_two_sides(channels: npt.NDArray[np.float32], names: Sequence[str] = ()) -> Samples:
    """Fold sound of shape (length, channels) to shape (length, 2).

    `names` are ffmpeg's short names of the channels in order (FL, FC, LFE, BL, ...); without them, or when
    they are unknown, the usual order for that number of channels is taken.
    """
    count = channels.shape[1]
    if count == 1:
        return np.repeat(channels, 2, axis=1)
    if count == 2:
        return channels
    named = tuple(names) if _all_known(names, count) else ORDERS.get(count, ("FL", "FR"))
    gains = np.zeros((count, 2), np.float32)
    for place, name in enumerate(named):
        gains[place] = _gain(name)
    return np.ascontiguousarray(channels @ gains)


def _all_known(names: Sequence[str], count: int) -> bool:
    return len(names) == count and any(name in ("FL", "FC") for name in names)


def _gain(name: str) -> tuple[float, float]:
    """Left and right gain of a channel; one that the table lacks is a surround on the side in its name."""
    if name in GAINS:
        return GAINS[name]
    if name.endswith(("L", "LC")):
        return (HALF_POWER, 0.0)
    if name.endswith(("R", "RC")):
        return (0.0, HALF_POWER)
    return (0.5, 0.5)

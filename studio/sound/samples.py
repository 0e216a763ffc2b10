"""The one form that sound has inside the program: float32, shape (length, 2), left and right, 48 000 times a
second.

Full scale is ±1.0; nothing inside clips, so values beyond it are allowed until a file is written.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from studio.timeline.heard import RATE

Samples: TypeAlias = npt.NDArray[np.float32]


def silence(length: int) -> Samples:
    """`length` samples of silence, shape (length, 2)."""
    return np.zeros((length, 2), np.float32)


def in_blocks(samples: Samples) -> Iterator[Samples]:
    """The samples, shape (length, channels), a second at a time, as views."""
    return (samples[at : at + RATE] for at in range(0, len(samples), RATE))


def whole_numbers(samples: Samples, bits: int) -> npt.NDArray[np.int32]:
    """The samples as signed whole numbers of `bits` bits, rounded to the nearest and held at full scale.

    One step is 2**-(bits-1), so a file of that depth comes back bit for bit.
    """
    scale = float(2 ** (bits - 1))
    return np.clip(np.rint(samples.astype(np.float64) * scale), -scale, scale - 1).astype(np.int32)

"""Sound as a bank of partials: each a sine that starts at a level and phase of its own and dies away at its own rate.

Plucked strings, struck strings and held pipes are all such banks; they differ in the laws that give levels and rates.
Nothing aliases, since no partial lies above what 48 kHz can hold, and pitch is exact.

A bank is added up as a product of two matrices. Sample a·M + b of a partial z is z^(a·M) · z^b, so M columns of z^b
and one row of z^(a·M) for each block of M samples give every sample with one multiplication for each partial.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from studio.timeline.heard import RATE

Floats = npt.NDArray[np.float64]

HIGHEST = 18_000.0
"""Hertz: no partial lies above it."""

_BLOCK = 256
_ROWS = 8  # blocks that are multiplied at once, at most
_LINES = 256  # partials that are multiplied at once, at most
_SILENT = 3e-6  # -110 dB under the loudest partial: what has died so far is not added up any more

_SMALL = 2**18
"""Multiplications in one product of matrices, at most: usual builds of numpy share larger ones out among threads; and
where other work keeps the processors busy, these wait for each other many times longer than they work."""


@dataclass(frozen=True)
class Partials:
    """Each array has shape (partials,).

    `hertz` may be any numbers from 0 to `HIGHEST`; `decay` is in 1/s (0: it goes on); `middle` and `side` are levels in
    the middle of the stereo picture and to its sides, left less right; `phase` is in radians, of a sine.
    """

    hertz: Floats
    decay: Floats
    middle: Floats
    side: Floats
    phase: Floats

    def times(self, gain: float) -> Partials:
        """The same, louder."""
        return Partials(self.hertz, self.decay, self.middle * gain, self.side * gain, self.phase)


def joined(*banks: Partials) -> Partials:
    """Several banks as one."""
    columns = ("hertz", "decay", "middle", "side", "phase")
    return Partials(*(np.concatenate([getattr(bank, name) for bank in banks]) for name in columns))


def rung(bank: Partials, length: int) -> npt.NDArray[np.float32]:
    """The first `length` samples of a bank, shape (length, 2), left and right."""
    unit = _BLOCK * _ROWS
    both = np.zeros((-(-length // unit) * unit, 2), np.float32)
    level = np.hypot(bank.middle, bank.side)
    edges = [0, *(unit << shift for shift in range(0, 40, 2) if unit << shift < len(both)), len(both)]
    for start, end in pairwise(edges):
        left = level * np.exp(-bank.decay * start / RATE)
        (alive,) = np.nonzero((left > _SILENT * level.max(initial=0.0)) & (bank.hertz < HIGHEST))
        for first in range(0, len(alive), _LINES):
            both[start:end] += _stretch(bank, alive[first : first + _LINES], start, end)
    return both[:length]


def _stretch(bank: Partials, lines: npt.NDArray[np.intp], start: int, end: int) -> npt.NDArray[np.float32]:
    """Samples `start` to `end` of some partials of a bank; whole units of blocks."""
    turn = (-bank.decay[lines] + 2j * np.pi * bank.hertz[lines]) / RATE
    within = np.exp(turn[:, None] * np.arange(_BLOCK))
    blocks: npt.NDArray[np.complex128] = np.exp(
        np.arange(start, end, _BLOCK)[:, None] * turn + 1j * bank.phase[lines]
    )
    columns = np.concatenate([within.imag, within.real]).astype(np.float32)
    middle, side = (_product(blocks, level[lines], columns) for level in (bank.middle, bank.side))
    return np.stack([middle + side, middle - side], axis=-1)


def _product(
    blocks: npt.NDArray[np.complex128], level: Floats, columns: npt.NDArray[np.float32]
) -> npt.NDArray[np.float32]:
    """The partials at their levels, added up: of each block's start times each column the imaginary part, in a row."""
    if not level.any():
        return np.zeros(len(blocks) * _BLOCK, np.float32)
    rows = np.concatenate([blocks.real * level, blocks.imag * level], axis=1).astype(np.float32)
    count = _ROWS
    while count > 2 and count * columns.size > _SMALL:
        count //= 2
    found: npt.NDArray[np.float32] = (rows.reshape(-1, count, len(columns)) @ columns).reshape(-1)
    return found

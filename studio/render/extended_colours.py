"""Colours under nothing: where a straight-alpha picture is empty, the colour of what stands nearest.

A straight-alpha picture has colours even where nothing is seen, and they matter: an editor that scales it, and a
codec that works in blocks, mixes them into the edges beside them. Black there would be a dark fringe.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

_BLOCKS = (4, 16, 64)


def extended(rgba: NDArray[np.uint8], margin: int, ground: tuple[int, int, int]) -> NDArray[np.uint8]:
    """(height, width, 4) straight-alpha picture → the same with `margin` empty pixels more on each side.

    Each empty pixel takes the mean colour, by alpha, of what is seen in its block of 4×4 pixels and the blocks
    around that, else the same of blocks of 16×16, else of 64×64; and `ground` where nothing is near. What is
    seen stays as it is.
    """
    wide = np.pad(rgba, ((margin, margin), (margin, margin), (0, 0)))
    rows, columns = np.nonzero(wide[..., 3] == 0)
    wide[rows, columns, :3] = ground
    height, width = (-(-side // _BLOCKS[-1]) * _BLOCKS[-1] for side in wide.shape[:2])
    sums: NDArray[np.float32] = np.zeros((height, width, 4), np.float32)
    sums[: wide.shape[0], : wide.shape[1]] = wide
    sums[..., :3] *= sums[..., 3:]
    before = 1
    for block in _BLOCKS:
        sums, before = _summed(sums, block // before), block
        near = _with_neighbours(sums)[rows // block, columns // block]
        seen = near[:, 3] > 0
        mean = near[seen, :3] / near[seen, 3:]
        wide[rows[seen], columns[seen], :3] = np.rint(mean).astype(np.uint8)
        rows, columns = rows[~seen], columns[~seen]
    return wide


def _summed(values: NDArray[np.float32], block: int) -> NDArray[np.float32]:
    """Sums of each square block."""
    rows = values[0::block].copy()
    for n in range(1, block):
        rows += values[n::block]
    columns: NDArray[np.float32] = rows[:, 0::block].copy()
    for n in range(1, block):
        columns += rows[:, n::block]
    return columns


def _with_neighbours(blocks: NDArray[np.float32]) -> NDArray[np.float32]:
    """Each block with the eight around it."""
    wide = np.pad(blocks, ((1, 1), (1, 1), (0, 0)))
    rows = wide[:-2] + wide[1:-1] + wide[2:]
    around: NDArray[np.float32] = rows[:, :-2] + rows[:, 1:-1] + rows[:, 2:]
    return around

"""Sample rates converted to 48 kHz so that output sample n is the sound at exactly n/48000 s, wherever
reading starts.

A rate converter started at an arbitrary input sample would put its output between the samples of a conversion
of the whole file. Both grids meet only every `step_out` output samples (160 for 44.1 kHz, where 160 samples
last as long as 147 of the file). So the output is made in blocks that lie on a fixed grid counted from the
recording's start, each with enough of its neighbourhood for the converter's filter. Any range is then cut
from the same blocks, and two ranges that meet fit together bit for bit.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import gcd

import numpy as np

from studio.sound.bed import lay
from studio.sound.samples import Samples
from studio.timeline.heard import RATE

MARGIN_SECONDS = 0.1
"""Neighbourhood on each side of a block; soxr's longest filter at these rates reaches a few hundred samples.
"""


@dataclass(frozen=True)
class Grid:
    """The block grid of one file rate: `block_out` samples at 48 kHz last exactly as long as `block_in` of
    the file.
    """

    step_out: int
    step_in: int
    steps: int

    @classmethod
    def of(cls, rate: int) -> Grid:
        """The grid for a file at `rate` samples a second, with blocks of about one second."""
        common = gcd(rate, RATE)
        step_out = RATE // common
        return cls(step_out, rate // common, -(-RATE // step_out))

    @property
    def block_out(self) -> int:
        """Samples of a block at 48 kHz."""
        return self.step_out * self.steps

    @property
    def block_in(self) -> int:
        """Samples of a block at the file's rate."""
        return self.step_in * self.steps


def converted(read: Callable[[int, int], Samples], rate: int, start: int, count: int) -> Samples:
    """Samples `start` to `start + count` at 48 kHz of a recording at `rate`, shape (count, 2).

    `read(first, number)` gives samples of the recording at its own rate, with silence outside of it; it is
    called once, for a little more than the range.
    """
    grid = Grid.of(rate)
    margin_steps = -(-int(MARGIN_SECONDS * RATE) // grid.step_out)
    first, last = start // grid.block_out, (start + count - 1) // grid.block_out
    reach = margin_steps * grid.step_in
    origin = first * grid.block_in - reach
    heard = read(origin, (last - first + 1) * grid.block_in + 2 * reach)
    blocks = []
    for number in range(last - first + 1):
        near = heard[number * grid.block_in :][: grid.block_in + 2 * reach]
        blocks.append(_convert(near, rate)[margin_steps * grid.step_out :][: grid.block_out])
    joined = np.concatenate(blocks)
    return joined[start - first * grid.block_out :][:count]


def convert_whole(samples: Samples, rate: int) -> Samples:
    """A whole piece of sound, shape (length, 2) at `rate`, at 48 kHz: its last sample is the last inside its
    length.
    """
    length = -(-len(samples) * RATE // rate)

    def read(first: int, number: int) -> Samples:
        return lay(number, [(samples, -first)])

    return converted(read, rate, 0, length) if length else samples


def _convert(samples: Samples, rate: int) -> Samples:
    import soxr

    result: Samples = soxr.resample(samples, rate, RATE, quality="VHQ")
    return result

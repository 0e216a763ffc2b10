"""What reading a sound file means, whichever library does it."""

from __future__ import annotations

from typing import Protocol

import numpy as np
import numpy.typing as npt

from studio.sound.samples import Samples


class Reader(Protocol):
    """An open sound file, read by range at its own sample rate."""

    @property
    def rate(self) -> int:
        """Samples a second in the file."""

    @property
    def length(self) -> int:
        """Samples in the file, as far as it says; some containers only estimate it."""

    def read(self, first: int, number: int) -> Samples:
        """Samples `first` (0 or more) to `first + number` at the file's own rate, its channels folded to two, fewer
        only where the file ends.

        Raises SourceError when the file is damaged, or stops before the length that it promises.
        """

    def read_channels(self, first: int, number: int) -> npt.NDArray[np.float32]:
        """The same range in the file's own channels, shape (length, channels). Raises like `read`."""

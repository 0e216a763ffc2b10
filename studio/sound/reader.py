"""What reading a sound file means, whichever library does it."""

from __future__ import annotations

from typing import Protocol

from studio.sound.samples import Samples


class Reader(Protocol):
    """An open sound file, read by range at its own sample rate, its channels already folded to two."""

    @property
    def rate(self) -> int:
        """Samples a second in the file."""

    @property
    def length(self) -> int:
        """Samples in the file, as far as it says; some containers only estimate it."""

    def read(self, first: int, number: int) -> Samples:
        """Samples `first` (0 or more) to `first + number` at the file's own rate, fewer only where the file
        ends.

        Raises SoundError when the file is damaged, or stops before the length that it promises.
        """

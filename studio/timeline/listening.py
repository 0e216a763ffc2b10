"""What a callout may hear of a recording before anything is drawn: how loud it is, moment by moment."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Protocol

Wave = tuple[tuple[float, float], ...]
"""The lowest and the highest sample, -1 to 1, in each of equally long stretches, one after the other."""


class Listen(Protocol):
    """Reads recordings for the timeline, which opens no file itself."""

    def __call__(self, path: Path, start: Fraction, end: Fraction, columns: int) -> Wave:
        """The wave of a recording from `start` to `end` seconds of its own time, in `columns` stretches.

        Where the recording has no sound any more (or not yet) the wave is (0, 0). Raises OSError or
        ValueError, with a plain sentence, when the file cannot be read.
        """
        ...


def deaf(path: Path, start: Fraction, end: Fraction, columns: int) -> Wave:
    """Hears nothing: for planning where no picture of sound is wanted."""
    return ((0.0, 0.0),) * columns

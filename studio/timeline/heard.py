"""What is heard, as data: which files sound, from which sample, for how many samples, and where in the clip.

Positions and lengths are samples at 48 000 Hz (`RATE`). A cut's positions count in the recording's own time:
sample n is the sound at n/48000 seconds of the recording, whatever sample rate its file has.
"""

from __future__ import annotations

from dataclasses import dataclass

RATE = 48_000
"""Samples in a second, everywhere inside the program."""


@dataclass(frozen=True)
class Source:
    """A sound file that takes part in a cut, at `gain_db` decibels (0: as recorded)."""

    path: str
    gain_db: float = 0.0


@dataclass(frozen=True)
class Cut:
    """The same stretch of one or more sources, added together, faded in and out.

    `start` and `length` are samples of the recording's own time; `fade_in` and `fade_out` are samples inside
    `length`.
    """

    sources: tuple[Source, ...]
    start: int
    length: int
    fade_in: int
    fade_out: int

    @property
    def end(self) -> int:
        """The first sample of the recording that is no longer in the cut."""
        return self.start + self.length


@dataclass(frozen=True)
class Laid:
    """A cut and its place: `at` is the sample of the clip where the cut starts."""

    cut: Cut
    at: int

    @property
    def end(self) -> int:
        """The first sample of the clip after the cut."""
        return self.at + self.cut.length

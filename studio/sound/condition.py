"""The condition that a sound file is in: its peaks, where it was clipped, and how far it stands off zero.

A clipped file was too loud for its numbers when it was written: the tops of its waves are cut flat, and no later
gain mends them. Three samples in a row at the last number are a flat top; a wave that only touches it has one or
two (common practice; the count is ours). Whole numbers end one step under ±1.0. Floating-point numbers do not end
there, so in such a file only tops at exactly ±1.0 were cut; what a lossy codec decodes to ±1.0 and beyond was.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from studio.sound import source
from studio.sound.reader import Reader
from studio.sound.true_peak import REACH, STEP, step_peaks
from studio.timeline.heard import RATE

IN_A_ROW = 3
"""Samples at full scale, one after the other, that make a flat top."""
ONE_PLACE = 0.1
"""Seconds within which flat tops are one place: a loud hit has one in each of its waves."""
SETTLED = 2.0
"""Seconds that are needed to tell an offset from a low note: half a wave of 40 Hz at full scale, left over, has a
mean of 0.004 over 2 s."""
_BLOCK_SECONDS = 10
_BITS = {"PCM_S8": 8, "PCM_U8": 8, "PCM_16": 16, "PCM_24": 24, "PCM_32": 24, "ALAC_16": 16, "ALAC_24": 24}


@dataclass(frozen=True)
class Condition:
    """Of the stretches that were looked at: peaks (dBFS, dBTP; None in silence), the seconds of the recording at which
    it is clipped, and its DC offset: the mean, -1.0 to 1.0, of the channel whose mean is farthest from 0 (None in a
    short stretch)."""

    sample_peak: float | None
    true_peak: float | None
    clipped: tuple[float, ...]
    offset: float | None


def condition(path: str, stretches: Sequence[tuple[int, int]]) -> Condition:
    """The condition of a file in stretches (first sample, sample after the last) of it, at 48 kHz.

    The file's own samples are looked at, before any rate is converted, and each of its channels, before surround is
    folded to two sides. Memory is constant. Raises SourceError when the file cannot be read.
    """
    found = _Found(_full_scale(path))
    with source.opened(path, max((end for _, end in stretches), default=0)) as reader:
        for start, end in stretches:
            for first, last in _blocks(start, end, reader):
                found.look(_with_neighbours(reader, first, last), first, reader.rate)
        return found.condition(reader.rate)


class _Found:
    """What was found so far."""

    def __init__(self, full_scale: tuple[float, bool]) -> None:
        self._full, self._exact = full_scale
        self._sample_peak = self._true_peak = 0.0
        self._sum: npt.NDArray[np.float64] = np.zeros(1)
        self._count = 0
        self._clipped: list[float] = []

    def look(self, samples: npt.NDArray[np.float32], first: int, rate: int) -> None:
        """Take in samples, shape (length, channels), that have REACH neighbours on each side; `first` is the file's
        sample after those."""
        inner = samples[REACH:-REACH]
        high = np.abs(samples)
        self._sample_peak = max(self._sample_peak, float(high[REACH:-REACH].max(initial=0.0)))
        whole = np.pad(samples, ((0, -len(inner) % STEP), (0, 0)))
        self._true_peak = max(self._true_peak, float(step_peaks(whole).max(initial=0.0)))
        self._sum = self._sum + inner.sum(axis=0, dtype=np.float64)
        self._count += len(inner)
        full = (high == self._full) if self._exact else (high >= self._full)
        flat = np.logical_and.reduce([full[n : len(full) - IN_A_ROW + 1 + n] for n in range(IN_A_ROW)])
        at = np.flatnonzero(flat.any(axis=1)) + first - REACH
        self._clipped.extend((at / rate).tolist())

    def condition(self, rate: int) -> Condition:
        settled = self._count >= SETTLED * rate
        mean = self._sum / self._count if self._count else self._sum
        return Condition(
            sample_peak=_decibels(self._sample_peak),
            true_peak=_decibels(self._true_peak),
            clipped=tuple(round(at, 3) for at in _places(sorted(self._clipped))),
            offset=float(mean[np.abs(mean).argmax()]) if settled else None,
        )


def _blocks(start: int, end: int, reader: Reader) -> Iterator[tuple[int, int]]:
    """The stretch in blocks of the file's own samples, as far as there are any."""
    size = _BLOCK_SECONDS * reader.rate
    last = min(-(-end * reader.rate // RATE), reader.length)
    for at in range(max(start * reader.rate // RATE, 0), last, size):
        yield at, min(at + size, last)


def _with_neighbours(reader: Reader, first: int, last: int) -> npt.NDArray[np.float32]:
    """Samples `first` to `last` and REACH more on each side, silent outside of the file."""
    before = max(REACH - first, 0)
    heard = reader.read_channels(first - REACH + before, last - first + 2 * REACH - before)
    return np.pad(heard, ((before, last - first + 2 * REACH - before - len(heard)), (0, 0)))


def _places(times: list[float]) -> Iterator[float]:
    yield from times[:1]
    yield from (after for before, after in pairwise(times) if after - before > ONE_PLACE)


def _full_scale(path: str) -> tuple[float, bool]:
    """The |sample| at which the file's numbers end, and whether only exactly that counts."""
    import soundfile

    try:
        kind = str(soundfile.info(path).subtype)
    except (soundfile.LibsndfileError, TypeError):
        return 1.0, False
    if kind in _BITS:
        return 1 - 2.0 ** (1 - _BITS[kind]), False
    return 1.0, kind in ("FLOAT", "DOUBLE")


def _decibels(peak: float) -> float | None:
    return 20 * float(np.log10(peak)) if peak else None

"""The wave of a recording for a picture: its lowest and its highest sample in each of many short stretches.

Read by range and block by block, so that a long excerpt takes no more memory than a short one. Nothing is kept
on disk: ten seconds of a stem take about 0.03 s to read, so one look-up for each excerpt is what a build needs.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from pathlib import Path

import numpy as np
import numpy.typing as npt

from studio.sound import source
from studio.sound.error import SoundError
from studio.timeline.heard import nearest_sample
from studio.timeline.listening import Wave

BLOCK = 1 << 19
"""Samples that are held at a time: 11 s, four megabytes."""


def wave(path: Path, start: Fraction, end: Fraction, columns: int) -> Wave:
    """The wave of a recording from `start` to `end` seconds of its own time, in `columns` equal stretches.

    Each is (lowest, highest) of the two sides' mean, full scale ±1.0, and (0, 0) before the recording starts
    and after it ends. A stretch shorter than a sample has the sample that it begins in. A file is read once,
    unless it changes. Raises ValueError with a plain sentence when it cannot be read, or the range is empty.
    """
    if columns < 1 or end <= start:
        raise ValueError(
            f"there is no wave from {float(start):.3f} s to {float(end):.3f} s in {columns} parts."
        )
    try:
        about = path.stat()
    except OSError as problem:
        raise ValueError(f"{path} cannot be opened: {problem.strerror}.") from None
    try:
        return _wave(path, about.st_size, about.st_mtime_ns, start, end, columns)
    except SoundError as problem:
        raise ValueError(str(problem)) from problem


@lru_cache(maxsize=256)
def _wave(path: Path, size: int, changed: int, start: Fraction, end: Fraction, columns: int) -> Wave:
    """As `wave`; `size` and `changed` (nanoseconds) tell one state of the file from another."""
    edges = np.array(
        [nearest_sample(start + (end - start) * n / columns) for n in range(columns + 1)], np.int64
    )
    first, last = edges[:-1], np.maximum(edges[1:], edges[:-1] + 1)
    lows, highs = np.full(columns, np.inf), np.full(columns, -np.inf)
    begin, stop = max(0, int(first[0])), min(int(last[-1]), source.length(path))
    for at in range(begin, stop, BLOCK):
        _take(_mono(path, at, min(BLOCK, stop - at)), at, first, last, lows, highs)
    silent = lows > highs
    lows[silent] = highs[silent] = 0.0
    return tuple(zip(lows.tolist(), highs.tolist(), strict=True))


def _mono(path: Path, start: int, count: int) -> npt.NDArray[np.float32]:
    return np.asarray(source.read(path, start, count).mean(axis=1))


def _take(
    block: npt.NDArray[np.float32],
    at: int,
    first: npt.NDArray[np.int64],
    last: npt.NDArray[np.int64],
    lows: npt.NDArray[np.float64],
    highs: npt.NDArray[np.float64],
) -> None:
    """Let `lows` and `highs` know what the block has for each column; its first sample is sample `at`."""
    touched = np.flatnonzero((first < at + len(block)) & (last > at))
    begins, stops = np.maximum(first[touched], at) - at, np.minimum(last[touched], at + len(block)) - at
    pairs = np.column_stack([begins, stops]).ravel()  # reduceat wants every edge; each second result is a gap
    padded = np.append(block, block[-1:])  # an edge may be the end of the block, where no sample is
    lows[touched] = np.minimum(lows[touched], np.minimum.reduceat(padded, pairs)[::2])
    highs[touched] = np.maximum(highs[touched], np.maximum.reduceat(padded, pairs)[::2])

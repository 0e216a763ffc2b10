"""How loud a piece of sound is, and the one gain that brings it to its target.

Loudness is that of ITU-R BS.1770 and EBU R 128, measured by ffmpeg's `ebur128`; the true peak is the peak of
the sound at four times its sample rate (BS.1770, annex 2), to a millionth of a decibel where `ebur128` prints
tenths.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from studio.sound.ffmpeg import run_ffmpeg
from studio.sound.samples import Samples
from studio.timeline.heard import RATE

GATE = -70.0
"""LUFS; what is not louder than this is silence to the standard, and a meter prints this number for it."""
BLOCK = RATE * 2 // 5
"""Samples of a gating block, 400 ms: nothing shorter has a loudness."""
HAIR = 1e-5
"""Decibels kept under the ceiling, for the last digit of the meter and of the samples."""
RANGE_NEEDS = 4 * RATE
"""Samples below which ffmpeg's loudness range has too few 3-second windows to mean anything."""
GRAPH = (
    "[0:a]asplit[level][peak];"
    "[level]ebur128=metadata=1:framelog=quiet,ametadata=mode=print:file=-[measured];"
    "[peak]apad=pad_len=4800,aresample=192000,"  # the padding lets the last peak ring through the filter
    "aformat=sample_fmts=fltp,"  # left to itself ffmpeg goes to 16 bits and cuts off what is over full scale
    "astats=measure_perchannel=none:measure_overall=Peak_level[peaked]"
)


@dataclass(frozen=True)
class Loudness:
    """Levels of a piece of sound. None: there is nothing to measure, in silence or in too short a piece.

    `integrated` in LUFS (needs 400 ms), `short_term_max` in LUFS (needs 3 s), `range` in LU (needs 4 s),
    `true_peak` in dBTP.
    """

    integrated: float | None
    short_term_max: float | None
    range: float | None
    true_peak: float | None


@dataclass(frozen=True)
class Levels:
    """What `to_target` did: `gain_db` takes `before` to `after`, short of the target if `held_by_peak`."""

    before: Loudness
    gain_db: float
    after: Loudness
    held_by_peak: bool


def measure(samples: Samples | Iterable[Samples]) -> Loudness:
    """Loudness of samples at 48 kHz, shape (length, 2), or of an iterable of such blocks.

    Memory stays constant. Raises SoundError when ffmpeg fails.
    """
    counted = _Counted((samples,) if isinstance(samples, np.ndarray) else samples)
    source = ["-f", "f32le", "-ar", str(RATE), "-ac", "2", "-i", "pipe:0"]
    outputs = ["-map", "[measured]", "-f", "null", "-", "-map", "[peaked]", "-f", "null", "-"]
    said = run_ffmpeg([*source, "-filter_complex", GRAPH, *outputs], counted, "measure the loudness")
    out = said.out.decode("ascii", "replace")
    integrated = _above_gate(_values("I", out)[-1:])
    return Loudness(
        integrated=integrated,
        short_term_max=_above_gate(_values("S", out)),
        range=_values("LRA", out)[-1] if integrated is not None and counted.samples >= RANGE_NEEDS else None,
        true_peak=_true_peak(said.log),
    )


def to_target(samples: Samples, target: float, ceiling: float = -1.0) -> tuple[Samples, Levels]:
    """The samples at one gain that takes them to `target` LUFS, and never above `ceiling` dBTP.

    Where the ceiling comes first the result stays below the target and says so. Silence stays as it is. A
    piece shorter than 400 ms is judged as if it went on: repeated until it fills a block.
    """
    before = measure(samples)
    loudness = before.integrated if len(samples) >= BLOCK else measure(_going_on(samples)).integrated
    if before.true_peak is None:
        return samples, Levels(before, 0.0, before, False)
    room = ceiling - HAIR - before.true_peak
    wanted = target - loudness if loudness is not None else min(room, 0.0)
    gain = min(wanted, room)
    result, after = _gained(samples, gain)
    if after.integrated is not None and after.integrated > target:
        # A louder copy lifts more of its quiet parts over the absolute gate: the reading moves a hair.
        gain -= after.integrated - target
        result, after = _gained(samples, gain)
    return result, Levels(before, gain, after, room < wanted)


def _gained(samples: Samples, gain_db: float) -> tuple[Samples, Loudness]:
    louder = samples * np.float32(10 ** (gain_db / 20))
    return louder, measure(louder)


def _going_on(samples: Samples) -> Samples:
    """The samples repeated to the length of one gating block."""
    if len(samples) == 0:
        return samples
    return np.tile(samples, (-(-BLOCK // len(samples)), 1))[:BLOCK]


class _Counted:
    """The bytes of each block, counting its samples on the way."""

    def __init__(self, blocks: Iterable[Samples]) -> None:
        self._blocks = blocks
        self.samples = 0

    def __iter__(self) -> Iterator[bytes]:
        for block in self._blocks:
            self.samples += len(block)
            yield block.astype("<f4").tobytes()


def _values(name: str, printed: str) -> list[float]:
    return [float(value) for value in re.findall(rf"^lavfi\.r128\.{name}=(\S+)$", printed, re.MULTILINE)]


def _above_gate(readings: list[float]) -> float | None:
    return max((reading for reading in readings if reading > GATE), default=None)


def _true_peak(log: str) -> float | None:
    found = re.search(r"Peak level dB: (\S+)", log)
    peak = float(found[1]) if found else -np.inf
    return peak if np.isfinite(peak) else None

"""How loud a piece of sound is.

Loudness is that of ITU-R BS.1770 and EBU R 128, measured by ffmpeg's `ebur128`; the true peak is the peak of
the sound at four times its sample rate (BS.1770, annex 2), to a millionth of a decibel where `ebur128` prints
tenths.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from studio.sound.ffmpeg import run_ffmpeg
from studio.sound.samples import Samples, in_blocks
from studio.timeline.heard import RATE

GATE = -70.0
"""LUFS; what is not louder than this is silence to the standard, and a meter prints this number for it."""
BLOCK = RATE * 2 // 5
"""Samples of a gating block, 400 ms: nothing shorter has a loudness."""
RANGE_NEEDS = 40
"""Readings, one in 100 ms, below which ffmpeg's loudness range has too few 3-second windows to mean anything."""
GRAPH = (
    "[0:a]asplit[level][peak];"
    "[level]{level}ebur128=metadata=1:framelog=quiet,ametadata=mode=print:file=-[measured];"
    "[peak]{peak}apad=pad_len=4800,aresample=192000,"  # the padding lets the last peak ring through the filter
    "aformat=sample_fmts=fltp,"  # left to itself ffmpeg goes to 16 bits and cuts off what is over full scale
    "astats=measure_perchannel=none:measure_overall=Peak_level[peaked]"
)
ALL = GRAPH.format(level="", peak="")


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
class Quiet:
    """A camera's own sound that is left under the target, because its noise would come up with it: it was at
    `integrated` LUFS, and was lifted by `lifted_db`, which is 0 where it is nothing but the tone of a room."""

    integrated: float
    lifted_db: float


@dataclass(frozen=True)
class Levels:
    """What bringing a sound to its target did: `gain_db`, and a limiter with up to `limited_by_db` of gain reduction,
    take `before` to `after`.

    Both are without the clicks that lie over the sound, all but the true peak of `after`. Short of the target if
    `held_by_peak`: with more gain the limiter would take off more than it may. `quiet_camera`: of the camera's own
    sound in a clip, where it was left quiet.
    """

    before: Loudness
    gain_db: float
    after: Loudness
    held_by_peak: bool
    limited_by_db: float = 0.0
    quiet_camera: Quiet | None = None


def measure(samples: Samples | Iterable[Samples]) -> Loudness:
    """Loudness of samples at 48 kHz, shape (length, 2), or of an iterable of such blocks.

    Memory stays constant. Raises SoundError when ffmpeg fails.
    """
    return _measured(
        _pipe(2), ALL, _bytes(in_blocks(samples) if isinstance(samples, np.ndarray) else samples)
    )


def measure_without_clicks(blocks: Iterable[Samples], lead: int = 0) -> Loudness:
    """Loudness of a sound that clicks lie over, from blocks of shape (any length, 4): left and right of all that is
    heard, then of the same without the clicks.

    The true peak is of all, the rest of what is heard without the clicks, from sample `lead` on. Raises like `measure`.
    """
    without = f"pan=stereo|c0=c2|c1=c3,atrim=start_sample={lead},asetpts=PTS-STARTPTS,"
    graph = GRAPH.format(level=without, peak="pan=stereo|c0=c0|c1=c1,")
    return _measured(_pipe(4), graph, _bytes(blocks))


def measure_file(path: Path) -> Loudness:
    """Loudness of the sound of a file at 48 kHz as ffmpeg decodes it; SoundError when it cannot."""
    return _measured(["-i", path.as_posix()], ALL)


def judged(samples: Samples, known: Loudness | None = None) -> float | None:
    """The integrated loudness that a gain should go by, in LUFS, of samples of shape (length, 2).

    A piece under 400 ms has none; it is judged as if it went on, repeated until it fills a gating block. None: there
    is nothing louder than the gate. `known`: what was measured of the samples already. Raises like `measure`.
    """
    if len(samples) < BLOCK:
        return measure(_going_on(samples)).integrated
    return (known or measure(samples)).integrated


def _going_on(samples: Samples) -> Samples:
    """The samples repeated to the length of one gating block."""
    if len(samples) == 0:
        return samples
    return np.tile(samples, (-(-BLOCK // len(samples)), 1))[:BLOCK]


def _pipe(channels: int) -> list[str]:
    return ["-f", "f32le", "-ar", str(RATE), "-ac", str(channels), "-i", "pipe:0"]


def _bytes(blocks: Iterable[Samples]) -> Iterator[bytes]:
    return (block.astype("<f4").tobytes() for block in blocks)


def _measured(source: list[str], graph: str, feed: Iterable[bytes] = ()) -> Loudness:
    outputs = ["-map", "[measured]", "-f", "null", "-", "-map", "[peaked]", "-f", "null", "-"]
    said = run_ffmpeg([*source, "-filter_complex", graph, *outputs], feed, "measure the loudness")
    out = said.out.decode("ascii", "replace")
    integrated, ranges = _above_gate(_values("I", out)[-1:]), _values("LRA", out)
    return Loudness(
        integrated=integrated,
        short_term_max=_above_gate(_values("S", out)),
        range=ranges[-1] if integrated is not None and len(ranges) >= RANGE_NEEDS else None,
        true_peak=_true_peak(said.log),
    )


def _values(name: str, printed: str) -> list[float]:
    return [float(value) for value in re.findall(rf"^lavfi\.r128\.{name}=(\S+)$", printed, re.MULTILINE)]


def _above_gate(readings: list[float]) -> float | None:
    return max((reading for reading in readings if reading > GATE), default=None)


def _true_peak(log: str) -> float | None:
    found = re.search(r"Peak level dB: (\S+)", log)
    peak = float(found[1]) if found else -np.inf
    return peak if np.isfinite(peak) else None

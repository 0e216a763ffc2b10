"""Measuring what tests and benchmarks hear: pitch of a tone, and when strokes begin."""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from studio.sound.ffmpeg import run_ffmpeg
from studio.sound.samples import Samples
from studio.timeline.heard import RATE

STROKE = RATE // 20
"""Samples of a stroke, 50 ms."""
NEAR = RATE * 60 // 1000
"""Samples around an expected stroke in which it is looked for."""


def tone(hertz: float, seconds: float, level: float = 0.3) -> Samples:
    """A sine of shape (n, 2), the same on both sides."""
    wave = level * np.sin(2 * np.pi * hertz * np.arange(round(seconds * RATE)) / RATE)
    return np.repeat(wave.astype(np.float32)[:, None], 2, axis=1)


def strokes(at: Sequence[int], length: int, level: float = 0.7) -> Samples:
    """Bursts of seeded noise that start hard and die away in 5 ms, shape (length, 2)."""
    when = np.arange(STROKE) / RATE
    burst = level * np.random.default_rng(1).uniform(-1, 1, STROKE) * np.exp(-when * 200)
    sound = np.zeros((length, 2), np.float32)
    for first in at:
        sound[first : first + STROKE] += burst.astype(np.float32)[: max(length - first, 0), None]
    return sound


def cents_off(samples: Samples, hertz: float) -> float:
    """How far the strongest tone in samples, shape (n, 2), is from `hertz`, in cents.

    From the peak of a windowed spectrum, padded and fitted with a parabola: exact to about 0.01 cent for a lone
    tone of a second or more.
    """
    heard = samples[:, 0].astype(np.float64)
    size = 1 << 20
    spectrum = np.abs(np.fft.rfft(heard * np.hanning(len(heard)), size))
    peak = int(spectrum.argmax())
    below, at, above = np.log(spectrum[peak - 1 : peak + 2])
    place = peak + (below - above) / (2 * (below - 2 * at + above))
    return float(1200 * np.log2(place * RATE / size / hertz))


def late(samples: Samples, expected: Sequence[int]) -> np.ndarray:
    """Milliseconds from each expected sample to the stroke that is heard near it: less than 0 is early.

    A stroke begins where the energy over half a millisecond first passes a quarter of its peak.
    """
    window = RATE // 2000
    energy = np.convolve(samples[:, 0].astype(np.float64) ** 2, np.ones(window) / window, "same")
    found = []
    for at in expected:
        first = max(at - NEAR, 0)
        near = energy[first : at + NEAR]
        found.append(first + int(np.flatnonzero(near > near.max() / 4)[0]) - at)
    return np.array(found) / RATE * 1000


def steps(samples: Samples) -> float:
    """The largest step from one sample to the next, from silence before and to silence after."""
    return float(np.abs(np.diff(samples, axis=0, prepend=0, append=0)).max())


def sines(parts: Sequence[tuple[float, float]], frequency: float = 1000.0) -> Samples:
    levels = np.concatenate(
        [np.full(round(48_000 * seconds), 10 ** (level / 20)) for level, seconds in parts]
    )
    tone = levels * np.sin(2 * np.pi * frequency * np.arange(len(levels)) / 48_000)
    return np.stack([tone, tone], 1).astype(np.float32)


def printed_by_ffmpeg(samples: Samples) -> tuple[float, float]:
    """Integrated loudness and true peak as the bundled ffmpeg's ebur128=peak=true prints them, in tenths."""
    said = run_ffmpeg(
        ["-f", "f32le", "-ar", "48000", "-ac", "2", "-i", "pipe:0", "-af", "ebur128=peak=true:framelog=quiet",
         "-f", "null", "-"],
        [samples.astype("<f4").tobytes()],
    )  # fmt: skip
    return tuple(float(re.findall(rf"{word}:\s+(\S+) ", said.log)[-1]) for word in ("I", "Peak"))


def with_hits(samples: Samples, height: float, each: int = 12_000) -> Samples:
    """The samples with a click of 5 ms every `each` samples."""
    click = height * np.sin(2 * np.pi * 1500 * np.arange(240) / 48_000) * np.hanning(240)
    louder = samples.copy()
    for at in range(each // 2, len(samples) - 240, each):
        louder[at : at + 240] += click[:, None].astype(np.float32)
    return louder

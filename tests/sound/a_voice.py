"""A voice made for tests: bursts of noise in the band of a telephone, where words are (ITU-T G.711: 300 to 3400 Hz)."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

RATE = 48_000


def band_noise(length: int, low: float, high: float, seed: int = 1) -> np.ndarray:
    """Noise between two frequencies in Hz, shape (length,), root mean square 1."""
    spectrum = np.fft.rfft(np.random.default_rng(seed).normal(size=length))
    frequency = np.fft.rfftfreq(length, 1 / RATE)
    spectrum[(frequency < low) | (frequency > high)] = 0
    noise = np.fft.irfft(spectrum, length)
    return noise / np.sqrt(np.mean(noise**2))


def words(
    seconds: float, said: Iterable[tuple[float, float]], level: float = -20.0, room: float | None = None
) -> np.ndarray:
    """Words from second to second, at `level` dB, in a silent room or in one with noise at `room` dB; (length, 2)."""
    length = round(seconds * RATE)
    mono = np.zeros(length)
    for seed, (start, end) in enumerate(said):
        first, last = round(start * RATE), round(end * RATE)
        word = band_noise(last - first, 300, 3400, seed) * np.hanning(last - first) ** 0.25
        mono[first:last] += word * 10 ** (level / 20)
    if room is not None:
        mono += band_noise(length, 20, 20_000, 99) * 10 ** (room / 20)
    return np.stack([mono, mono], 1).astype(np.float32)


def sentence(
    start: float, count: int = 6, word: float = 0.25, gap: float = 0.12
) -> list[tuple[float, float]]:
    """`count` words one after the other; gaps between words are 50 to 200 ms (common practice)."""
    return [(start + n * (word + gap), start + n * (word + gap) + word) for n in range(count)]

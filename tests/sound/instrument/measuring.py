"""Measuring a note: its pitch, its onset, its spectrum."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from studio.timeline.heard import RATE

Mono = npt.NDArray[np.floating]


def pitch_of(samples: Mono, near: float) -> float:
    """Hertz of the strongest partial within half a half step of `near`: the peak of a Hann-windowed spectrum, by a
    parabola through the logarithms of its three highest bins."""
    padded = 4 * len(samples)
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples)), padded))
    low, high = (round(near * 2 ** (side / 24) * padded / RATE) for side in (-1, 1))
    top = low + int(np.argmax(spectrum[low : high + 1]))
    left, middle, right = np.log(spectrum[top - 1 : top + 2])
    return float((top + (left - right) / (2 * (left - 2 * middle + right))) * RATE / padded)


def cents_between(hertz: float, other: float) -> float:
    """How far a frequency lies above another."""
    return float(1200 * np.log2(hertz / other))


def spectrum_db(samples: Mono) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """Hertz, and decibels against the strongest, of a whole sound; Blackman window."""
    spectrum = np.abs(np.fft.rfft(samples * np.blackman(len(samples)))) + 1e-12
    return np.fft.rfftfreq(len(samples), 1 / RATE), 20 * np.log10(spectrum / spectrum.max())


def onset_of(samples: Mono, under: float = 40.0) -> int:
    """The first sample that is no more than `under` decibels below the highest peak."""
    return int(np.argmax(np.abs(samples) >= np.abs(samples).max() * 10 ** (-under / 20)))


def brightness(samples: Mono) -> float:
    """The centre of gravity of the spectrum, in hertz; Hann window."""
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples))))
    return float(np.sum(np.fft.rfftfreq(len(samples), 1 / RATE) * spectrum) / np.sum(spectrum))

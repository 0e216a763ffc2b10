"""Tone controls and a small room, both applied in the frequency domain to a whole stem at once."""

from __future__ import annotations

import numpy as np

from making.instruments import RATE, Samples


def _padded(length: int) -> int:
    return 1 << (length - 1).bit_length()


def shaped(sound: Samples, high_pass: float = 30, low_pass: float = 16_000) -> Samples:
    """A mono or (samples, 2) sound through gentle one-pole filters, as an analogue desk has them. No DC remains."""
    size = _padded(len(sound) + RATE)
    s = 1j * np.fft.rfftfreq(size, 1 / RATE)
    response = (s / (s + high_pass)) ** 2 * (low_pass / (s + low_pass))
    spectrum = np.fft.rfft(sound, size, axis=0)
    response = response if sound.ndim == 1 else response[:, None]
    return np.fft.irfft(spectrum * response, size, axis=0)[: len(sound)]


def room(sound: Samples, seconds: float = 1.1, seed: int = 5) -> Samples:
    """The sound of a (samples, 2) signal in a room, without the direct sound; same length.

    The room is decaying noise, different on each side, that loses its treble first; it falls by 60 dB in ``seconds``.
    """
    t = np.arange(round(1.1 * seconds * RATE)) / RATE
    rng = np.random.default_rng(seed)
    response = np.zeros((len(t), 2))
    hertz = np.fft.rfftfreq(len(t), 1 / RATE)
    for low, high, share in ((150, 700, 1.0), (700, 2500, 0.75), (2500, 7000, 0.45)):
        edges = 1 / (1 + (low / np.maximum(hertz, 1)) ** 4) / (1 + (hertz / high) ** 4)
        noise = np.fft.rfft(rng.standard_normal((len(t), 2)), axis=0)
        band = np.fft.irfft(noise * edges[:, None], len(t), axis=0)
        response += band / np.sqrt((band**2).mean()) * np.exp(-6.9 * t / (share * seconds))[:, None]
    response *= (1 - np.exp(-t / 0.006))[:, None] / np.sqrt((response**2).sum(axis=0))
    delay = round(0.011 * RATE)
    size = _padded(len(sound) + len(t) + delay)
    wet = np.fft.irfft(np.fft.rfft(sound, size, axis=0) * np.fft.rfft(response, size, axis=0), size, axis=0)
    return np.concatenate([np.zeros((delay, 2)), wet])[: len(sound)]

"""The drum kit, struck in numpy: each function returns one stroke as a mono ``float64`` array at 48 kHz."""

from __future__ import annotations

import numpy as np

from making.instruments import RATE, Samples, envelope


def _noise(seconds: float, low: float, high: float, seed: int) -> Samples:
    """Noise between two frequencies in hertz, with soft edges, peak 1."""
    length = round(seconds * RATE)
    spectrum = np.fft.rfft(np.random.default_rng(seed).standard_normal(length))
    hertz = np.fft.rfftfreq(length, 1 / RATE)
    edges = 1 / (1 + (low / np.maximum(hertz, 1)) ** 6) / (1 + (hertz / high) ** 6)
    noise = np.fft.irfft(spectrum * edges, length)
    return noise / np.abs(noise).max()


def _decay(length: int, seconds: float) -> Samples:
    return np.exp(-np.arange(length) / (seconds * RATE))


def _kick(seed: int) -> Samples:
    t = np.arange(round(0.42 * RATE)) / RATE
    phase = 2 * np.pi * (50 * t + 78 * 0.028 * (1 - np.exp(-t / 0.028)))  # from 128 Hz down to 50
    body = np.tanh(1.8 * np.sin(phase) * np.exp(-t / 0.13))
    click = 0.16 * _noise(0.42, 900, 4500, seed) * np.exp(-t / 0.005)
    return (0.9 * body + click) * envelope(len(t), 0.002, 0.05)


def _snare(seed: int) -> Samples:
    t = np.arange(round(0.30 * RATE)) / RATE
    head = (np.sin(2 * np.pi * 186 * t) + 0.6 * np.sin(2 * np.pi * 331 * t)) * np.exp(-t / 0.055)
    wires = _noise(0.30, 900, 9000, seed) * (0.8 * np.exp(-t / 0.075) + 0.2 * np.exp(-t / 0.016))
    return (0.34 * head + 0.85 * wires) * envelope(len(t), 0.002, 0.04)


def _stick(seed: int) -> Samples:
    t = np.arange(round(0.09 * RATE)) / RATE
    wood = (np.sin(2 * np.pi * 820 * t) + 0.7 * np.sin(2 * np.pi * 1710 * t)) * np.exp(-t / 0.012)
    tap = _noise(0.09, 1500, 6000, seed) * np.exp(-t / 0.006)
    return (0.55 * wood + 0.3 * tap) * envelope(len(t), 0.002, 0.02)


def _clap(seed: int) -> Samples:
    """Several hands, never quite together: four short bursts, the last one with the room's tail."""
    length = round(0.34 * RATE)
    sound = np.zeros(length)
    for i, (at, strength) in enumerate(((0.0, 0.65), (0.010, 0.8), (0.0215, 0.7), (0.033, 1.0))):
        start = round(at * RATE)
        burst = _noise((length - start) / RATE, 850, 2600, seed + 10 * i)
        tail = 0.075 if i == 3 else 0.0065
        sound[start:] += strength * burst * _decay(length - start, tail)
    return 0.9 * sound * envelope(length, 0.002, 0.05)


def _hat(seed: int, ring: float, length: float) -> Samples:
    noise = _noise(length, 6500, 14000, seed)
    t = np.arange(len(noise)) / RATE
    metal = sum(np.sign(np.sin(2 * np.pi * f * t)) for f in (3211.0, 4519.0, 5407.0, 6793.0)) / 4
    spectrum = np.fft.rfft(metal)
    hertz = np.fft.rfftfreq(len(t), 1 / RATE)
    edges = 1 / (1 + (7000 / np.maximum(hertz, 1)) ** 6) / (1 + (hertz / 15000) ** 8)
    metal = np.fft.irfft(spectrum * edges, len(t))
    return (0.7 * noise + 0.5 * metal) * _decay(len(noise), ring) * envelope(len(noise), 0.002, 0.02)


def _cymbal(seed: int, ring: float, length: float, bell: float) -> Samples:
    noise = _noise(length, 3500, 13000, seed)
    t = np.arange(len(noise)) / RATE
    tone = sum(np.sin(2 * np.pi * f * t + f) for f in (2637.0, 3423.0, 4310.0, 5731.0)) / 4
    sound = 0.6 * noise * _decay(len(noise), ring) + bell * tone * _decay(len(noise), 0.5 * ring)
    return sound * envelope(len(noise), 0.003, 0.1)


def strokes() -> dict[str, tuple[Samples, ...]]:
    """Three different strokes of each instrument of the kit, so that repeated ones do not sound like a machine gun."""
    makers = {
        "kick": _kick,
        "snare": _snare,
        "stick": _stick,
        "clap": _clap,
        "closed": lambda seed: _hat(seed, 0.028, 0.14),
        "pedal": lambda seed: 0.8 * _hat(seed, 0.018, 0.10),
        "open": lambda seed: _hat(seed, 0.13, 0.42),
        "ride": lambda seed: _cymbal(seed, 0.32, 1.3, 0.35),
        "crash": lambda seed: _cymbal(seed, 0.75, 2.6, 0.08),
    }
    kit = {}
    for first_seed, (name, make) in zip(range(100, 1000, 100), makers.items(), strict=True):
        kit[name] = tuple(make(first_seed + i) for i in range(3))
    return kit

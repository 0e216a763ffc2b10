"""A small instrument for each pitched part, in numpy: warm lead, electric piano, round bass, plucked guitar.

Each function returns one note as a mono ``float64`` array at 48 kHz that starts from silence (attacks of 2 ms or more)
and ends in silence.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Samples = NDArray[np.float64]

RATE = 48_000


def _times(seconds: float) -> Samples:
    return np.arange(round(seconds * RATE)) / RATE


def envelope(length: int, attack: float, release: float) -> Samples:
    """One, with a raised-cosine rise over ``attack`` seconds and a fall over the last ``release`` seconds."""
    shape = np.ones(length)
    rise, fall = min(round(attack * RATE), length // 2), min(round(release * RATE), length // 2)
    shape[:rise] = 0.5 - 0.5 * np.cos(np.pi * np.arange(rise) / rise)
    shape[length - fall :] *= 0.5 + 0.5 * np.cos(np.pi * np.arange(fall) / fall)
    return shape


def warm_lead(
    hertz: float, seconds: float, loudness: float, glide_from: float | None, tail: float
) -> Samples:
    """A soft saw of a dozen partials that opens as it speaks, with late vibrato.

    It slides in from the note just before, if there is one, and takes ``tail`` seconds to fade after its length.
    """
    t = _times(seconds + tail)
    vibrato = 0.0062 * np.clip((t - 0.22) / 0.5, 0, 1) * np.sin(2 * np.pi * 5.3 * t)
    pitch = hertz * (1 + vibrato)
    if glide_from is not None:
        pitch = pitch * (glide_from / hertz) ** np.exp(-t / 0.016)
    phase = 2 * np.pi * np.cumsum(pitch) / RATE
    opening = 0.62 + 0.38 * np.clip(t / 0.12, 0, 1) * np.exp(-t / 2.5)
    voice = np.zeros_like(t)
    for k in range(1, 13):
        if k * hertz > 9000:
            break
        strength = k**-1.15 * np.exp(-((k * hertz / 4800) ** 2)) * opening ** (k - 1)
        voice += strength * (np.sin(k * phase) + 0.35 * np.sin(k * phase * 1.0021 + 0.7 * k))
    swell = 0.88 + 0.12 * np.sin(np.pi * np.clip(t / max(seconds, 0.1), 0, 1))
    return 0.30 * loudness * voice * swell * envelope(len(t), 0.022, tail + 0.02)


@lru_cache(maxsize=512)
def electric_piano(hertz: float, seconds: float, loudness: float) -> Samples:
    """Two-operator frequency modulation: a mellow body whose brightness decays, and a short bell-like tine above it."""
    t = _times(seconds + 0.28)
    decay = np.exp(-t / (2.9 * (220 / hertz) ** 0.45))
    turn = 2 * np.pi * hertz * t
    bright = (0.55 + 1.1 * loudness) * np.exp(-t / 0.55) + 0.16
    body = np.sin(turn + bright * np.sin(turn))
    detuned = np.sin(turn * 1.0012 + 0.5 * bright * np.sin(turn * 1.0012))
    tine = np.sin(turn + 1.3 * loudness * np.exp(-t / 0.06) * np.sin(14 * turn)) * np.exp(-t / 0.4)
    note = (0.62 * body + 0.25 * detuned + 0.22 * tine) * decay
    return 0.42 * loudness * note * envelope(len(t), 0.004, 0.24)


@lru_cache(maxsize=512)
def round_bass(hertz: float, seconds: float, loudness: float) -> Samples:
    """A finger-style bass: harmonics that close down within half a second, a soft thump at the start."""
    t = _times(seconds + 0.07)
    turn = 2 * np.pi * hertz * t
    note = np.zeros_like(t)
    for k in range(1, 17):
        if k * hertz > 3200:
            break
        # The phase grows with the square of k, which spreads the harmonics' crests and keeps the peak low.
        strength = k**-0.95 * np.exp(-((k * hertz / 900) ** 1.4)) * np.exp(-t * (1.1 * k - 0.6))
        note += strength * np.sin(k * turn + 1.9 * k * k)
    thump = 0.25 * np.exp(-t / 0.018) * np.sin(2 * np.pi * 95 * t)
    note = np.tanh(1.5 * loudness * (note + thump)) / 1.5
    return 0.95 * note * envelope(len(t), 0.005, 0.06)


@lru_cache(maxsize=1024)
def plucked_string(
    hertz: float, seconds: float, loudness: float, bright: float = 0.5, ring: float = 2.6
) -> Samples:
    """A Karplus-Strong string: a burst of noise going round a delay line that loses its brightness at each turn.

    Args:
        hertz: fundamental.
        seconds: time until the string is damped.
        bright: 0 dull to 1 wiry.
        ring: seconds until the fundamental has fallen by 60 dB.
    """
    period = RATE / hertz
    damping = 0.5 - 0.36 * bright
    whole = int(period - damping)
    part = period - damping - whole
    gain = 10 ** (-3 / (hertz * ring))
    taps = gain * np.convolve([1 - damping, damping], [1 - part, part])
    length = round((seconds + 0.08) * RATE)
    rng = np.random.default_rng(round(hertz * 8))
    burst = rng.uniform(-1, 1, whole)
    softness = 1 + round((1 - bright) * (2 - loudness) * 4)
    burst = np.convolve(np.concatenate([burst, burst]), np.ones(softness) / softness)[whole : 2 * whole]
    burst -= np.roll(burst, max(1, round(0.18 * whole)))  # plucked near a fifth of the length
    burst -= burst.mean()
    line = np.zeros(length + 2 * whole + 2)
    line[2 : whole + 2] = burst / np.abs(burst).max()
    for start in range(whole + 2, len(line), whole):
        stop = min(start + whole, len(line))
        span = stop - start
        line[start:stop] = (
            taps[0] * line[start - whole : start - whole + span]
            + taps[1] * line[start - whole - 1 : start - whole - 1 + span]
            + taps[2] * line[start - whole - 2 : start - whole - 2 + span]
        )
    note = line[whole + 2 : whole + 2 + length]
    return 0.5 * loudness * note * envelope(length, 0.002, 0.075)

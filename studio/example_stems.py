"""The stems of the example song: soft tones and noise on the beats of `templates/example`, made when needed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
import soundfile
from numpy.typing import NDArray

RATE = 48_000
STEMS = ("drums", "bass", "guitar", "keys", "lead")

_BEAT = 60 / 96  # seconds
_FIRST = 0.25  # where bar 1 starts
_BEATS = 32
_ROOTS = (43, 43, 51, 52, 48, 48, 50, 50, 52, 45, 50, 50, 52, 45, 50, 50)  # MIDI notes, one for each half bar
_PEAK = 0.08  # of full scale in each stem: soft on headphones, all of them together too

_Tone = tuple[float, float, float, float]
"""From which beat, for how many beats, at which frequency in Hz, how loud; 0 Hz is noise."""


def write_stems(folder: Path) -> None:
    """Write a file for each of the example song's stems: 48 kHz, mono, 16 bits."""
    folder.mkdir(parents=True, exist_ok=True)
    for stem in STEMS:
        soundfile.write(folder / f"{stem}.wav", _sound(_tones(stem)), RATE, subtype="PCM_16")


def _tones(stem: str) -> Iterator[_Tone]:
    if stem == "drums":
        yield from ((beat / 2, 0.1, 0.0, 0.3) for beat in range(2 * _BEATS))
        yield from ((beat, 0.3, 0.0, 0.7) for beat in range(1, _BEATS, 2))
    for half, root in enumerate(_ROOTS):
        start = 2.0 * half
        if stem == "bass":
            yield from ((start + beat, 0.8, _hertz(root - 12), 0.9) for beat in (0, 1.5))
        elif stem == "keys":
            yield from ((start, 1.9, _hertz(root + step), 0.3) for step in (12, 19, 24))
        elif stem == "guitar":
            yield from ((start + beat / 2, 0.5, _hertz(root + 12 + 5 * beat), 0.6) for beat in range(4))
        elif stem == "lead" and half % 4 != 3:
            yield from ((start + beat, 0.9, _hertz(root + 24 + 2 * beat), 0.8) for beat in range(2))


def _hertz(note: int) -> float:
    """The frequency of a MIDI note at A440 in equal temperament (ISO 16)."""
    return float(440 * 2 ** ((note - 69) / 12))


def _sound(tones: Iterator[_Tone]) -> NDArray[np.float32]:
    sound = np.zeros(round((_FIRST + (_BEATS + 2) * _BEAT) * RATE), np.float32)
    noise = np.random.default_rng(8).uniform(-1, 1, RATE).astype(np.float32)
    for beat, beats, hertz, loud in tones:
        count, at = round(beats * _BEAT * RATE), round((_FIRST + beat * _BEAT) * RATE)
        time = np.arange(count) / RATE
        wave = np.sin(2 * np.pi * hertz * time) if hertz else noise[:count]
        fading = np.exp(-3 * time / time[-1]) * np.minimum(1, time / 0.005)  # no click at the start
        sound[at : at + count] += (_PEAK * loud * wave * fading).astype(np.float32)
    return sound

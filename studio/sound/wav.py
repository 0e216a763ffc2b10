"""Excerpts as WAV files: 24 bits, 48 kHz, stereo, whole or not at all, the same bytes for the same samples.

The standard library's `wave` writes them: its header holds no date and no program name, it takes blocks one
at a time, and a full disk arrives as the operating system's own error.
"""

from __future__ import annotations

import wave
from collections.abc import Iterable, Iterator
from pathlib import Path

import numpy as np

from studio.sound.error import SoundError
from studio.sound.samples import Samples, in_blocks, whole_numbers
from studio.timeline.heard import RATE
from studio.whole_file import whole_file

BITS = 24


def write(path: Path, samples: Samples | Iterable[Samples]) -> None:
    """Write samples, shape (length, 2), or an iterable of such blocks, to `path` as 24-bit WAV.

    Values beyond full scale are held at full scale. Beyond the samples it needs constant memory. Raises OSError when
    the disk refuses.
    """
    blocks = in_blocks(samples) if isinstance(samples, np.ndarray) else samples
    with whole_file(path) as unfinished, unfinished.open("wb") as file, wave.open(file, "wb") as sound:
        sound.setnchannels(2)
        sound.setsampwidth(BITS // 8)
        sound.setframerate(RATE)
        for block in blocks:
            sound.writeframes(_packed(block))


def blocks(path: Path, length: int = RATE) -> Iterator[Samples]:
    """The samples of a WAV file that `write` made, in blocks of shape (up to `length`, 2), so that a long file needs no
    more memory than a short one. Raises SoundError for any other file.
    """
    try:
        with wave.open(str(path), "rb") as sound:
            if (sound.getnchannels(), sound.getsampwidth(), sound.getframerate()) != (2, BITS // 8, RATE):
                raise SoundError(
                    f"{path} is not a 24-bit stereo WAV file at 48 kHz; remove it and build again."
                )
            left = sound.getnframes()
            while left > 0:
                packed = sound.readframes(min(length, left))
                left -= min(length, left)
                yield _unpacked(packed)
    except (wave.Error, EOFError):
        raise SoundError(f"{path} is not a whole WAV file; remove it and build again.") from None
    except FileNotFoundError:
        raise SoundError(f"There is no file {path}; build it again.") from None


def _unpacked(packed: bytes) -> Samples:
    """Samples from little-endian 24-bit bytes."""
    padded = np.zeros((len(packed) // 3, 4), np.uint8)
    padded[:, 1:] = np.frombuffer(packed, np.uint8).reshape(-1, 3)
    return (padded.view("<i4").reshape(-1, 2) / 2.0**31).astype(np.float32)


def _packed(block: Samples) -> bytes:
    """Little-endian 24-bit bytes of one block."""
    return whole_numbers(block, BITS).astype("<i4").view(np.uint8).reshape(-1, 4)[:, :3].tobytes()

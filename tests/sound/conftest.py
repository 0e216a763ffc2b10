"""Signals and reference decodes for the tests on sound. Every signal is made here: nobody's recording."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound.ffmpeg import ffmpeg_path

CLICKS = (0.0, 0.25, 1.0, 1.5, 2.75)
"""Seconds of the clicks; each falls on a whole sample at 44.1 kHz and at 48 kHz."""
SECONDS = 4


def run(*arguments: str | Path) -> bytes:
    """What the bundled ffmpeg writes to its standard output."""
    command = [ffmpeg_path(), "-y", "-v", "error", *map(str, arguments)]
    return subprocess.run(command, capture_output=True, check=True).stdout


@pytest.fixture(scope="session")
def ffmpeg() -> Callable[..., bytes]:
    return run


@pytest.fixture(scope="session")
def decoded() -> Callable[..., np.ndarray]:
    """The reference decode: ffmpeg's own, as float32 of shape (length, 2), through an optional filter."""

    def decode(path: Path, *filtering: str) -> np.ndarray:
        raw = run("-i", path, "-map", "0:a", *filtering, "-f", "f32le", "-c:a", "pcm_f32le", "-ac", "2", "-")
        return np.frombuffer(raw, "<f4").reshape(-1, 2)

    return decode


@pytest.fixture(scope="session")
def click_track(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Path]:
    """A file of clicks, one sample long, at CLICKS: `click_track(rate, ".flac")`; made once for each kind."""
    folder = tmp_path_factory.mktemp("clicks")

    def make(rate: int, suffix: str) -> Path:
        path = folder / f"clicks-{rate}{suffix}"
        if not path.exists():
            sound = np.zeros((rate * SECONDS, 2), np.float32)
            sound[[round(at * rate) for at in CLICKS]] = 0.8
            master = folder / f"clicks-{rate}.wav"
            soundfile.write(master, sound, rate, subtype="PCM_24")
            if suffix != ".wav":
                run("-i", master, path)
        return path

    return make


@pytest.fixture(scope="session")
def music_like() -> Callable[[int, float], np.ndarray]:
    """Seeded noise and tones of shape (length, 2): content everywhere, and no two samples alike."""

    def make(rate: int, seconds: float) -> np.ndarray:
        length = round(rate * seconds)
        at = np.arange(length) / rate
        noise = np.random.default_rng(7).normal(0, 0.05, (length, 2))
        tones = 0.2 * np.sin(2 * np.pi * 220 * at) + 0.1 * np.sin(2 * np.pi * 1760 * at)
        return (noise + tones[:, None]).astype(np.float32)

    return make

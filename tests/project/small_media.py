"""Small real media files, made by code."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import av
import numpy as np
import soundfile


def write_sound(path: Path, seconds: float, rate: int = 8000) -> None:
    """A quiet 440 Hz tone."""
    path.parent.mkdir(parents=True, exist_ok=True)
    times = np.arange(round(seconds * rate)) / rate
    soundfile.write(path, 0.1 * np.sin(2 * np.pi * 440 * times), rate)


def write_take(
    path: Path, frames: int, rate: int | Fraction, size: tuple[int, int] = (64, 36), sound: bool = False
) -> None:
    """A grey card, without sound or with silence."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with av.open(str(path), "w") as container:
        stream = container.add_stream("libx264", rate=rate)
        stream.width, stream.height, stream.pix_fmt = *size, "yuv420p"
        heard = container.add_stream("aac", rate=8000, layout="mono") if sound else None
        picture = np.full((size[1], size[0], 3), 128, dtype=np.uint8)
        for _ in range(frames):
            container.mux(stream.encode(av.VideoFrame.from_ndarray(picture, format="rgb24")))
        container.mux(stream.encode())
        if heard is not None:
            silence = np.zeros((1, round(frames * 8000 / rate)), dtype=np.float32)
            frame = av.AudioFrame.from_ndarray(silence, format="fltp", layout="mono")
            frame.sample_rate, frame.pts, frame.time_base = 8000, 0, Fraction(1, 8000)
            container.mux(heard.encode(frame))
            container.mux(heard.encode())

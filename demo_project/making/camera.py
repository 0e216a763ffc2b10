"""The camera take: four chords at the desk, with their own sound, as H.264 and AAC in an MP4.

The keys go down on the frame in which they are heard. The D of Em7 is kept down under Asus4 and moves to C# for A:
a 4-3 suspension seen from above.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import av
import numpy as np
from av.video.frame import VideoFrame

from making.desk import SIZE, picture
from making.instruments import RATE, Samples, electric_piano
from making.notation import frequency, midi_number
from making.room import room, shaped

FRAME_RATE = 30
SECONDS = 12

PHRASE: tuple[tuple[str, float, float], ...] = (
    # Em7, then Asus4 over the held D
    ("E3", 1.00, 2.95),
    ("B3", 1.00, 2.95),
    ("D4", 1.00, 4.95),
    ("G4", 1.00, 2.95),
    ("A2", 3.00, 6.95),
    ("E3", 3.00, 6.95),
    ("E4", 3.00, 9.60),
    ("A4", 3.00, 6.95),
    # A: the D falls to C#
    ("C#4", 5.00, 6.95),
    # Dadd9, the E kept from A, rolled from the bottom up
    ("D3", 7.00, 9.60),
    ("A3", 7.12, 9.60),
    ("F#4", 7.24, 9.60),
    ("A4", 7.36, 9.60),
)
"""Pitch, key down and key up, in seconds of the take."""


def sound() -> Samples:
    """What the take sounds like: (samples, 2) at 48 kHz, peak about -3 dBFS."""
    track = np.zeros((SECONDS * RATE, 2))
    for pitch, down, up in PHRASE:
        note = electric_piano(frequency(pitch), round(up - down, 2), 0.55)
        at = round(down * RATE)
        lean = (midi_number(pitch) - 60) / 60  # low notes a little to the left
        track[at : at + len(note), 0] += note * (1 - lean)
        track[at : at + len(note), 1] += note * (1 + lean)
    wet = shaped(track + 0.16 * room(track, seed=21), 60, 7000)
    return wet * (10 ** (-3 / 20) / np.abs(wet).max())


def depths(seconds: float) -> dict[int, float]:
    """How far down each pressed key is at a time, 0 to 1, in quarters: a key takes about two frames each way."""
    found: dict[int, float] = {}
    for pitch, down, up in PHRASE:
        falling = (seconds - down) * FRAME_RATE / 2 + 0.5
        rising = (up - seconds) * FRAME_RATE / 2 + 0.5
        depth = round(4 * min(max(min(falling, rising), 0.0), 1.0)) / 4
        if depth:
            number = midi_number(pitch)
            found[number] = max(found.get(number, 0.0), depth)
    return found


def _bt709(rgb: np.ndarray) -> VideoFrame:
    """(height, width, 3) RGB to 4:2:0 in BT.709, limited range, with the standard's luma weights."""
    red, green, blue = (rgb[..., i] / 255.0 for i in range(3))
    luma = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    chroma = [(blue - luma) / 1.8556, (red - luma) / 1.5748]
    height, width = luma.shape
    planes = [16 + 219 * luma]
    planes += [128 + 224 * c.reshape(height // 2, 2, width // 2, 2).mean(axis=(1, 3)) for c in chroma]
    packed = np.concatenate([plane.reshape(-1, width) for plane in planes])
    frame = VideoFrame.from_ndarray(packed.round().astype(np.uint8), format="yuv420p")
    frame.colorspace = frame.color_primaries = frame.color_trc = 1  # BT.709, in all three of H.273's tables
    frame.color_range = 1  # limited
    return frame


def _frames() -> Iterator[VideoFrame]:
    for n in range(SECONDS * FRAME_RATE):
        frame = _bt709(picture(depths(n / FRAME_RATE), 1 + n / FRAME_RATE))
        frame.pts, frame.time_base = n, Fraction(1, FRAME_RATE)
        yield frame


def write(path: Path) -> Path:
    """Write the take."""
    with av.open(str(path), "w", options={"movflags": "+faststart"}) as file:
        settings = {
            "preset": "slow",
            "crf": "21",
            "threads": "1",
        }  # one thread: the same file on every machine
        video = file.add_stream("libx264", rate=FRAME_RATE, options=settings)
        video.width, video.height, video.pix_fmt = *SIZE, "yuv420p"
        context = video.codec_context
        context.colorspace = context.color_primaries = context.color_trc = 1
        context.color_range = 1
        audio = file.add_stream("aac", rate=RATE, layout="stereo")
        audio.bit_rate = 96_000
        for frame in _frames():
            file.mux(video.encode(frame))
        file.mux(video.encode(None))
        samples = sound().T.astype(np.float32)
        for start in range(0, samples.shape[1], 1024):
            block = av.AudioFrame.from_ndarray(
                np.ascontiguousarray(samples[:, start : start + 1024]), format="fltp", layout="stereo"
            )
            block.rate, block.pts, block.time_base = RATE, start, Fraction(1, RATE)
            file.mux(audio.encode(block))
        file.mux(audio.encode(None))
    return path

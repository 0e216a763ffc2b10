"""Takes are shown frame by frame in their own time, whatever holds them, and refused in words when damaged."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import av
import numpy as np
import pytest

from studio.project.episode_values import read_canvas
from studio.render.takes import Take, TakeError, take_frames

CANVAS = read_canvas("320x240 @ 30")
ROUND = 72


def write_take(path: Path, rate: F, frames: int, codec: str = "libx264", **options: str) -> None:
    """Brightness tells the frame: 16 + 3 for each, round again after 72, so that rounding cannot hide one."""
    with av.open(str(path), "w") as container:
        stream = container.add_stream(codec, rate=rate, options=options)
        stream.width, stream.height, stream.pix_fmt = 64, 48, "yuv420p"
        for number in range(frames):
            frame = av.VideoFrame(64, 48, "yuv420p")
            for plane, value in zip(frame.planes, (16 + 3 * (number % ROUND), 128, 128), strict=True):
                plane.update(bytes([value]) * plane.buffer_size)
            frame.pts, frame.time_base = number, 1 / rate
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))


def shown(path: Path, start: F, end: F, count: int) -> list[int]:
    taken = take_frames(Take(str(path), "", start, end), CANVAS, count)
    return [round((float(np.median(luma)) - 16) / 3) for luma, _, _ in taken]


@pytest.mark.parametrize("rate", [F(24), F(25), F(30), F(30000, 1001), F(50), F(60000, 1001)])
@pytest.mark.parametrize("ending", [".mp4", ".mov", ".mkv", ".avi", ".ts"])
@pytest.mark.slow
def test_each_moment_shows_the_frame_whose_time_has_come(tmp_path: Path, ending: str, rate: F) -> None:
    path = tmp_path / f"take{ending}"
    if ending == ".avi":
        write_take(path, rate, 90, "ffv1")  # AVI has no room for the order of B-frames
    else:
        write_take(path, rate, 90, crf="0", bf="2", g="250")
    start, found = F(1, 2), shown(path, F(1, 2), F(3), 30)
    for number, frame in enumerate(found):
        moment = start + F(number, 30)
        # Containers round their clocks to a millisecond, and as much is allowed: that near to it, either is right.
        right = {int((moment + off) * rate) % ROUND for off in (F(-2, 1000), F(0), F(2, 1000))}
        assert frame in right, (number, found)


def test_the_last_frame_is_held_past_the_end(tmp_path: Path) -> None:
    path = tmp_path / "take.mp4"
    write_take(path, F(30), 40, crf="0")
    assert shown(path, F(1), F(7, 6), 12) == [30, 31, 32, 33, 34, *[34] * 7]


def test_a_damaged_take_is_refused_by_name(tmp_path: Path) -> None:
    path = tmp_path / "take.mp4"
    write_take(path, F(30), 90, crf="0", g="10")
    data = bytearray(path.read_bytes())
    start = data.index(b"mdat") + 8
    data[start : start + 4000] = bytes(np.random.default_rng(5).integers(0, 256, 4000, np.uint8))
    path.write_bytes(bytes(data[: len(data)]))
    with pytest.raises(TakeError, match=r"take\.mp4 cannot be read after 0\.00 s"):
        shown(path, F(0), F(3), 90)


def test_a_landscape_take_fills_a_portrait_canvas(tmp_path: Path) -> None:
    path = tmp_path / "take.mp4"
    write_take(path, F(30), 3)
    for text in ("1080x1920 @ 30", "1080x1080 @ 30", "1920x1080 @ 30"):
        canvas = read_canvas(text)
        luma, blueness, _ = next(take_frames(Take(str(path), "", F(0), F(1)), canvas, 1))
        assert luma.shape == (canvas.height, canvas.width)
        assert blueness.shape == (canvas.height // 2, canvas.width // 2)

"""Moving overlays, read back with PyAV and with another ffmpeg."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import av
import numpy as np
import pytest
from av.video.reformatter import ColorRange, Colorspace

from studio.drawing.themes.theme import default_theme
from studio.project.episode_values import Canvas, read_canvas
from studio.render.alpha_codecs import CODECS
from studio.render.moving import make_moving, moving_path, stale_overlays, write_moving
from studio.render.workshop import Workshop
from studio.sound.ffmpeg import run_ffmpeg
from studio.timeline.state import Layer
from tests.render.toy_overlays import SMALL, composed, lane, toys

__all__ = ["toys"]
RATES = ["23.976", "25", "29.97", "30", "60"]
FRAMES = 60
RAW = ["-vf", "scale=flags=accurate_rnd+full_chroma_int", "-f", "rawvideo", "-pix_fmt", "rgba", "-"]
BT709, NO_MATRIX = 1, 0  # ITU-T H.273
# How far (alpha, colour where alpha is at least a half) a picture may be off, of 255, and colour in the mean. RLE and
# PNG lose nothing; VP9 loses nothing but where colours are, at half resolution; ProRes quantises colour, not alpha.
OFF = {"prores": (1, 4), "rle": (1, 1), "png": (1, 1), "vp9": (1, 80)}
MEAN_OFF = {"prores": 0.1, "rle": 0.01, "png": 0.01, "vp9": 1.5}


def written(
    folder: Path, codec: str, canvas: Canvas = SMALL, layers: tuple[Layer, ...] | None = None
) -> Path:
    path = folder / f"overlay{CODECS[codec].ending}"
    write_moving(
        canvas, lane(canvas) if layers is None else layers, FRAMES, default_theme(), CODECS[codec], path
    )
    return path


def read_back(path: Path, canvas: Canvas) -> np.ndarray:
    """(frames, height, width, 4) as another ffmpeg reads it, stopping at the first complaint."""
    decoder = ["-c:v", "libvpx-vp9"] if path.suffix == ".webm" else []  # the one that reads alpha
    said = run_ffmpeg(
        ["-v", "warning", "-xerror", *decoder, "-i", str(path), "-fps_mode", "passthrough", *RAW]
    )
    assert not said.log.strip()
    return np.frombuffer(said.out, np.uint8).reshape(-1, canvas.height, canvas.width, 4)


@pytest.mark.parametrize("codec", CODECS)
@pytest.mark.parametrize("rate", RATES)
def test_it_is_what_an_editor_asks_for(toys: None, codec: str, rate: str, tmp_path: Path) -> None:
    canvas = read_canvas(f"320x240 @ {rate}")
    with av.open(written(tmp_path, codec, canvas).as_posix()) as container:
        stream = container.streams.video[0]
        context = stream.codec_context
        assert stream.average_rate == stream.base_rate == canvas.rate
        assert stream.start_time in (0, None)
        assert (context.width, context.height) == (320, 240)
        assert (context.color_primaries, context.color_trc) == (BT709, BT709)
        if codec in ("prores", "vp9"):
            assert (context.colorspace, context.color_range) == (Colorspace.ITU709, ColorRange.MPEG)
        else:
            assert context.colorspace == NO_MATRIX
        times = [
            packet.pts * packet.time_base for packet in container.demux(stream) if packet.pts is not None
        ]
    assert len(times) == FRAMES
    tick = Fraction(1, 1000) if codec == "vp9" else 0  # WebM counts in milliseconds
    assert all(abs(time - n / canvas.rate) <= tick for n, time in enumerate(times))


@pytest.mark.parametrize("codec", CODECS)
def test_every_frame_is_in_its_place_with_its_alpha_and_its_colours(
    toys: None, codec: str, tmp_path: Path
) -> None:
    frames = read_back(written(tmp_path, codec), SMALL)
    assert len(frames) == FRAMES
    for number, frame in enumerate(frames):
        expected = composed(SMALL, lane(), number).astype(int)
        off = np.abs(frame - expected)
        assert off[..., 3].max() <= OFF[codec][0]
        seen = off[expected[..., 3] >= 128][:, :3]
        assert seen.max(initial=0) <= OFF[codec][1]
        assert seen.mean() <= MEAN_OFF[codec]


@pytest.mark.parametrize("codec", CODECS)
def test_under_nothing_lie_colours_of_what_is_near(toys: None, codec: str, tmp_path: Path) -> None:
    # A straight-alpha picture that is scaled without regard to alpha shows a dark fringe where black lies there.
    frame = read_back(written(tmp_path, codec), SMALL)[45].astype(int)
    box = lane()[0].box
    around = frame[box.y - 4 : box.y, box.x + 8 : box.right - 8]
    assert (around[..., 3] == 0).all()
    panel = frame[box.y + 2, box.x + 20, :3]
    assert np.abs(around[..., :3] - panel).max() <= 8


@pytest.mark.parametrize("codec", CODECS)
def test_the_same_overlay_is_the_same_bytes_on_any_number_of_threads(
    toys: None, codec: str, tmp_path: Path
) -> None:
    def written_by(threads: int) -> bytes:
        path = tmp_path / f"by-{threads}{CODECS[codec].ending}"
        write_moving(SMALL, lane(), FRAMES, default_theme(), CODECS[codec], path, threads)
        return path.read_bytes()

    assert written_by(1) == written_by(1) == written_by(4)


@pytest.mark.parametrize("codec", ["prores", "rle", "png"])
def test_an_unchanged_frame_is_the_same_packet_and_every_packet_stands_by_itself(
    toys: None, codec: str, tmp_path: Path
) -> None:
    with av.open(written(tmp_path, codec).as_posix()) as container:
        packets = [packet for packet in container.demux(video=0) if packet.pts is not None]
    assert all(packet.is_keyframe for packet in packets)
    data = [bytes(packet) for packet in packets]
    frames = [composed(SMALL, lane(), number).tobytes() for number in range(FRAMES)]
    same = [one == two for one, two in pairwise(frames)]
    assert [one == two for one, two in pairwise(data)] == same
    assert sum(same) > 20


def test_vp9_repeats_in_a_byte_and_a_player_may_start_every_four_seconds(toys: None, tmp_path: Path) -> None:
    canvas, path = read_canvas("320x240 @ 25"), tmp_path / "long.webm"
    write_moving(canvas, lane(canvas, frames=250), 250, default_theme(), CODECS["vp9"], path)
    with av.open(path.as_posix()) as container:
        packets = [packet for packet in container.demux(video=0) if packet.pts is not None]
        assert container.streams.video[0].metadata["ALPHA_MODE"] == "1"
    assert [n for n, packet in enumerate(packets) if packet.is_keyframe] == [0, 100, 200]
    assert sum(packet.size == 1 for packet in packets) > 150
    frames = read_back(path, canvas)
    assert len(frames) == 250
    assert (frames[110:112, ..., 3] == composed(canvas, lane(canvas, frames=250), 111)[..., 3]).all()
    from_the_key = run_ffmpeg(
        ["-v", "error", "-xerror", "-c:v", "libvpx-vp9", "-ss", "4", "-i", str(path), "-frames:v", "1", *RAW]
    ).out
    assert from_the_key == frames[100].tobytes()


def test_prores_is_4444_by_its_own_header(toys: None, tmp_path: Path) -> None:
    # SMPTE RDD 36: "icpf"; chroma format 3 is 4:4:4, alpha type 2 is 16 bits; the movie's tag for it is ap4h.
    with av.open(written(tmp_path, "prores").as_posix()) as container:
        packet = next(iter(container.demux(video=0)))
        assert container.streams.video[0].codec_context.codec_tag == "ap4h"
    data = bytes(packet)
    assert data[4:8] == b"icpf" and data[20] >> 6 == 3 and data[25] & 15 == 2
    assert data[22:25] == bytes([BT709, BT709, 1])


def test_nothing_is_left_of_an_overlay_that_was_interrupted(toys: None, tmp_path: Path) -> None:
    path = tmp_path / "overlay.mov"

    def interrupt(done: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_moving(SMALL, lane(), FRAMES, default_theme(), CODECS["prores"], path, step=interrupt)
    assert not list(tmp_path.iterdir())


def test_an_overlay_is_made_once_and_known_to_be_old_when_the_plan_changes(
    toys: None, tmp_path: Path
) -> None:
    shop = Workshop(tmp_path / "build", default_theme(), 1)
    plan: Any = SimpleNamespace(canvas=SMALL, segments=())
    segment: Any = SimpleNamespace(id="hook", layers=lane(), frames=FRAMES)
    plan.segments = (segment,)
    assert make_moving(plan, segment, "png", shop)
    assert not make_moving(plan, segment, "png", shop)
    assert moving_path(segment, "png", shop).is_file()
    assert not list(stale_overlays(plan, shop))
    segment.layers = lane(every=9)
    (sentence,) = stale_overlays(plan, shop)
    assert sentence.startswith("overlays/hook.mov")
    assert make_moving(plan, segment, "png", shop)
    assert not list(stale_overlays(plan, shop))

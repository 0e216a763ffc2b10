"""QuickTime RLE put together from bands is what the encoder makes of the whole picture."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import av
import numpy as np
import pytest
from av.video.codeccontext import VideoCodecContext

from studio.project.episode_values import Canvas
from studio.render.rle import Rle
from studio.timeline.state import Box


def whole(rgba: np.ndarray) -> bytes:
    encoder = VideoCodecContext.create("qtrle", "w")
    assert isinstance(encoder, VideoCodecContext)
    encoder.height, encoder.width = rgba.shape[:2]
    encoder.pix_fmt, encoder.time_base, encoder.gop_size = "argb", Fraction(1), 1
    argb = np.ascontiguousarray(rgba[..., [3, 0, 1, 2]])
    (packet,) = encoder.encode(av.VideoFrame.from_ndarray(argb, format="argb"))
    return bytes(packet)


@pytest.mark.parametrize(("width", "height"), [(320, 240), (250, 242), (1080, 1920)])
def test_bands_make_the_frame_that_the_encoder_makes(width: int, height: int) -> None:
    random = np.random.default_rng(7)
    canvas = Canvas(width, height, Fraction(30), "")
    picture: Any = SimpleNamespace(pixels=np.zeros((height, width, 4), np.uint8))
    picture.pixels[20:60, 30:200] = (20, 40, 60, 200)
    stream: Any = None
    encoding = Rle(stream, canvas)
    assert encoding.encoded(picture, Box(0, 0, width, height)) == whole(picture.pixels)
    for changed in (Box(10, 14, 40, 4), Box(0, height - 2, width, 2), Box(60, 100, 80, 60)):
        part = picture.pixels[changed.y : changed.bottom, changed.x : changed.right]
        part[...] = random.integers(0, 256, part.shape, np.uint8)
        assert encoding.encoded(picture, changed) == whole(picture.pixels)
    assert encoding.encoded(picture, None) == whole(picture.pixels)

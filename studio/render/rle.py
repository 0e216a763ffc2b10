"""QuickTime RLE, lossless: encoded by bands of lines.

Each line of a frame that stands by itself is coded without regard to any other, so a frame is its bands, each
encoded as a small picture, one after the other; of the frames after the first, only bands that change are encoded.
"""

from __future__ import annotations

import struct
from fractions import Fraction

import av
import numpy as np
from av.video.codeccontext import VideoCodecContext
from av.video.stream import VideoStream
from numpy.typing import NDArray

from studio.project.episode_values import Canvas
from studio.render.alpha_encoding import Intra
from studio.render.overlay_picture import OverlayPicture
from studio.timeline.state import Box

_BAND = 16  # lines
_HEAD, _TAIL = 6, 1  # bytes of a frame around its lines: its size and its kind; the mark of its end


class Rle(Intra):
    """Keeps the bands of the frame before."""

    def __init__(self, stream: VideoStream, canvas: Canvas) -> None:
        super().__init__(stream, canvas)
        self._bands: list[bytes] = [b""] * -(-canvas.height // _BAND)
        self._encoders = {
            height: _begun(canvas.width, height) for height in {_BAND, canvas.height % _BAND} if height
        }

    def encoded(self, picture: OverlayPicture, changed: Box | None) -> bytes:
        if changed:
            first, end = changed.y // _BAND, -(-changed.bottom // _BAND)
            argb = _argb(picture.pixels[first * _BAND : end * _BAND])
            for band in range(first, end):
                top = (band - first) * _BAND
                self._bands[band] = self._band(argb[top : top + _BAND])
        lines = b"".join(self._bands)
        return struct.pack(">IH", _HEAD + len(lines) + _TAIL, 0) + lines + bytes(_TAIL)

    def _band(self, argb: NDArray[np.uint8]) -> bytes:
        (packet,) = self._encoders[len(argb)].encode(av.VideoFrame.from_ndarray(argb, format="argb"))
        return bytes(packet)[_HEAD:-_TAIL]


def _argb(rgba: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Alpha first: each pixel's four bytes turned round by one, as one number."""
    pixels = np.ascontiguousarray(rgba).view("<u4")
    turned: NDArray[np.uint8] = ((pixels << 8) | (pixels >> 24)).astype("<u4").view(np.uint8)
    return turned


def _begun(width: int, height: int) -> VideoCodecContext:
    encoder = VideoCodecContext.create("qtrle", "w")
    assert isinstance(encoder, VideoCodecContext)
    encoder.width, encoder.height, encoder.pix_fmt = width, height, "argb"
    encoder.time_base, encoder.gop_size = Fraction(1), 1  # else a packet says only what changed
    return encoder

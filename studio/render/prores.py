"""ProRes 4444 (SMPTE RDD 36): 10 bits, with alpha, encoded by the slice."""

from __future__ import annotations

from fractions import Fraction

from av.video.codeccontext import VideoCodecContext
from av.video.stream import VideoStream

from studio.project.episode_values import Canvas
from studio.render.alpha_encoding import Intra
from studio.render.alpha_samples import TEN_BITS, ten_bits
from studio.render.overlay_picture import OverlayPicture
from studio.render.painter import Kept
from studio.render.prores_slices import Frame, aligned, taken_apart
from studio.timeline.state import Box

_ROOM_BYTES = 64 << 20
_BYTES_A_PIXEL = 32  # about what an encoder keeps for itself


class ProRes(Intra):
    """The first frame is encoded whole; of those that follow, the slices that changed."""

    def __init__(self, stream: VideoStream, canvas: Canvas) -> None:
        super().__init__(stream, canvas)
        self._frame: Frame | None = None
        self._encoders = Kept(_ROOM_BYTES)

    def encoded(self, picture: OverlayPicture, changed: Box | None) -> bytes:
        if self._frame is None:
            (packet,) = self.stream.encode(ten_bits(picture.pixels))
            self._frame = taken_apart(bytes(packet))
            self._frame.tag_bt709()
        elif changed:
            place = aligned(changed, self.canvas.width, self.canvas.height)
            part = picture.pixels[place.y : place.bottom, place.x : place.right]
            (packet,) = self._encoder(place.width, place.height).encode(ten_bits(part))
            self._frame.put(taken_apart(bytes(packet)), place, self.canvas.width)
        return bytes(self._frame)

    def _encoder(self, width: int, height: int) -> VideoCodecContext:
        encoder: VideoCodecContext = self._encoders.get(
            (width, height), lambda: _begun(width, height), lambda _: width * height * _BYTES_A_PIXEL
        )
        return encoder


def _begun(width: int, height: int) -> VideoCodecContext:
    encoder = VideoCodecContext.create("prores_ks", "w")
    assert isinstance(encoder, VideoCodecContext)
    encoder.width, encoder.height, encoder.pix_fmt = width, height, TEN_BITS
    encoder.time_base, encoder.thread_count = Fraction(1), 1
    return encoder

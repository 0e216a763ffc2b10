"""Codecs that carry alpha, as editors and the web ask for them.

In ProRes, QuickTime RLE and PNG each frame stands by itself, so an unchanged frame is the same packet again; VP9
has a packet of one byte that says so.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import av
from av.container import OutputContainer
from av.video.reformatter import ColorRange, Colorspace
from av.video.stream import VideoStream

from studio.project.episode_values import Canvas
from studio.render import vp9
from studio.render.alpha_encoding import Encoding, Intra
from studio.render.alpha_samples import EIGHT_BITS, TEN_BITS
from studio.render.overlay_picture import OverlayPicture
from studio.render.prores import ProRes
from studio.render.rle import Rle
from studio.timeline.state import Box

_BT709, _NO_MATRIX = 1, 0  # ITU-T H.273: primaries and transfer 1, matrix 0


@dataclass(frozen=True)
class AlphaCodec:
    """A way to write a moving overlay: `name` as a person asks for it, `says` what it is."""

    name: str
    says: str
    ending: str
    encoder: str
    samples: str
    begin: Callable[[VideoStream, Canvas], Encoding]
    options: Mapping[str, str] = field(default_factory=dict)

    @property
    def container(self) -> str:
        return self.ending.removeprefix(".")

    def open(self, out: OutputContainer, canvas: Canvas, threads: int) -> Encoding:
        """Begin the stream of an overlay in a movie that is being written."""
        stream = out.add_stream(self.encoder, rate=canvas.rate, options=dict(self.options))
        assert isinstance(stream, VideoStream)
        stream.width, stream.height, stream.pix_fmt = canvas.width, canvas.height, self.samples
        context = stream.codec_context
        context.time_base, context.thread_count = 1 / canvas.rate, threads
        context.color_primaries = context.color_trc = _BT709
        if self.samples in (TEN_BITS, EIGHT_BITS):
            context.colorspace, context.color_range = Colorspace.ITU709, ColorRange.MPEG
        else:
            context.colorspace, context.color_range = _NO_MATRIX, ColorRange.JPEG
        return self.begin(stream, canvas)


class _Png(Intra):
    """PNG, lossless."""

    def __init__(self, stream: VideoStream, canvas: Canvas) -> None:
        super().__init__(stream, canvas)
        stream.codec_context.thread_count = 1  # with more, frames would come late

    def encoded(self, picture: OverlayPicture, changed: Box | None) -> bytes:
        (packet,) = self.stream.encode(av.VideoFrame.from_ndarray(picture.pixels, format="rgba"))
        return bytes(packet)


# The fast end of zlib, as most of a picture is flat: a third of the time for twice the bytes.
_FAST = {"compression_level": "1", "pred": "sub"}

CODECS: Mapping[str, AlphaCodec] = {
    codec.name: codec
    for codec in (
        AlphaCodec("prores", "ProRes 4444, for editing", ".mov", "prores_ks", TEN_BITS, ProRes),
        AlphaCodec("rle", "QuickTime RLE, lossless", ".mov", "qtrle", "argb", Rle),
        AlphaCodec("png", "PNG in .mov, lossless", ".mov", "png", "rgba", _Png, _FAST),
        AlphaCodec(
            "vp9", "VP9 in .webm, for the web", ".webm", "libvpx-vp9", EIGHT_BITS, vp9.Vp9, vp9.OPTIONS
        ),
    )
}
"""The ways to write a moving overlay, by the name that a person asks for."""

"""H.264 for a chunk. One preset of one encoder, so that chunks made anywhere can be joined by copying."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

import av
from av.video.reformatter import ColorRange, Colorspace

from studio.project.episode_values import Canvas
from studio.whole_file import whole_file

# B-frames are left out: packets then leave in the order in which they are shown, so a chunk's clock starts at
# its first frame and joins need no edit list; for mostly still pictures they would save little.
SETTINGS = {
    "preset": "veryfast",
    "crf": "17",
    "x264-params": "bframes=0:scenecut=0:open-gop=0:keyint=infinite:"
    "colorprim=bt709:transfer=bt709:colormatrix=bt709:range=tv",
}
_BT709 = 1  # ITU-T H.273: primaries 1, transfer 1


def encode(frames: Iterable[av.VideoFrame], canvas: Canvas, path: Path) -> None:
    """Encode to an MP4 of pictures only. The file appears whole or not at all."""
    with whole_file(path) as part, av.open(part.as_posix(), "w", format="mp4") as container:
        stream = container.add_stream("libx264", rate=canvas.rate, options=dict(SETTINGS))
        stream.width, stream.height, stream.pix_fmt = canvas.width, canvas.height, "yuv420p"
        context = stream.codec_context
        context.time_base = Fraction(1, 1) / canvas.rate
        context.thread_count = 1
        context.color_primaries = context.color_trc = _BT709
        context.colorspace, context.color_range = Colorspace.ITU709, ColorRange.MPEG
        for frame in frames:
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))

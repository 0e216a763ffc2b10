"""Straight-alpha pictures as the samples that encoders take: BT.709, limited range, alpha as it is."""

from __future__ import annotations

import av
import numpy as np
from av.video.plane import VideoPlane
from av.video.reformatter import ColorRange, Colorspace, VideoReformatter
from numpy.typing import NDArray

TEN_BITS, EIGHT_BITS = "yuva444p10le", "yuva420p"

_STEP = 64  # samples
_REFORMATTER = VideoReformatter()  # kept, as it takes longer to begin than to convert a small picture
_LEVELS = np.arange(256, dtype=np.uint32)
_EIGHT_BIT_LEVELS = _LEVELS.astype(np.uint8)
_TEN_BIT_LEVELS = ((_LEVELS * 1023 + 127) // 255).astype(np.uint16)


def ten_bits(rgba: NDArray[np.uint8]) -> av.VideoFrame:
    """(height, width, 4) → Y'CbCr 4:4:4 and alpha, 10 bits each."""
    return _converted(rgba, TEN_BITS, _TEN_BIT_LEVELS)


def eight_bits(rgba: NDArray[np.uint8]) -> av.VideoFrame:
    """(height, width, 4) → Y'CbCr 4:2:0 and alpha, 8 bits each."""
    return _converted(rgba, EIGHT_BITS, _EIGHT_BIT_LEVELS)


def _converted(rgba: NDArray[np.uint8], samples: str, levels: NDArray[np.generic]) -> av.VideoFrame:
    """Colours by swscale, within half a step of ITU-R BT.709-6. Its alpha is off by one here and there, so that
    is laid in by a table of `levels`."""
    height, width = rgba.shape[:2]
    # swscale works in several threads, whose last samples of a row fall into the next one, of another thread,
    # where rows are not a multiple of its step: so it is given rows that are.
    even = np.zeros((height, -(-width // _STEP) * _STEP, 4), np.uint8)
    even[:, :width] = rgba
    wide = _REFORMATTER.reformat(
        av.VideoFrame.from_ndarray(even, format="rgba"),
        format=samples,
        dst_colorspace=Colorspace.ITU709,
        dst_color_range=ColorRange.MPEG,
    )
    frame = av.VideoFrame(width, height, samples)
    frame.colorspace, frame.color_range = Colorspace.ITU709, ColorRange.MPEG
    for source, plane in zip(wide.planes[:3], frame.planes, strict=False):
        _rows(plane, levels)[:, : plane.width] = _rows(source, levels)[:, : plane.width]
    _rows(frame.planes[3], levels)[:, :width] = levels[rgba[..., 3]]
    return frame


def _rows(plane: VideoPlane, levels: NDArray[np.generic]) -> NDArray[np.generic]:
    """A plane as an array that writes through to it, as wide as its rows are in memory."""
    return np.frombuffer(plane, levels.dtype).reshape(plane.height, -1)  # type: ignore[call-overload,no-any-return]

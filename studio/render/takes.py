"""Camera takes, frame by frame, fitted to the canvas.

A take keeps its own clock: the picture shown at a moment is the last one whose time has come, so takes of
another rate, or of no steady rate, stay in step with their sound. The last picture is held past the end.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

import av
import numpy as np
from av.container import InputContainer
from av.video.reformatter import ColorRange, Colorspace, Interpolation
from av.video.stream import VideoStream
from numpy.typing import NDArray

from studio.project.episode_values import Canvas

Taken = tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]
_HD_LINES = 720


@dataclass(frozen=True)
class Take:
    """Part of a camera file: from `start` seconds of its own time; not shown past `end`."""

    path: str
    digest: str
    start: Fraction
    end: Fraction


def take_frames(take: Take, canvas: Canvas, count: int) -> Iterator[Taken]:
    """`count` pictures at the canvas's rate, as Y, U and V planes of its size."""
    with av.open(take.path) as container:
        stream = container.streams.video[0]
        stream.thread_type = "AUTO"
        tick = stream.time_base or Fraction(1, 90_000)
        origin = Fraction(stream.start_time or 0) * tick
        container.seek(int((take.start + origin) / tick), stream=stream, backward=True)
        pictures = _pictures(container, stream, origin, tick, take.end)
        shown, following = next(pictures), next(pictures, None)
        fitted = fit(shown[1], canvas)
        for number in range(count):
            moment = take.start + number / canvas.rate
            late = shown
            while following and following[0] <= moment:
                shown, following = following, next(pictures, None)
            if shown is not late:
                fitted = fit(shown[1], canvas)
            yield fitted


def _pictures(
    container: InputContainer, stream: VideoStream, origin: Fraction, tick: Fraction, end: Fraction
) -> Iterator[tuple[Fraction, av.VideoFrame]]:
    """(seconds, picture) for each picture up to `end`, and one at least.

    Clocks of files are rounded to their time base; a tick of grace keeps a picture in its own place.
    """
    first = True
    for frame in container.decode(stream):
        at = Fraction(frame.pts or 0) * tick - origin - tick
        if at >= end and not first:
            return
        first = False
        yield at, frame


def fit(frame: av.VideoFrame, canvas: Canvas) -> Taken:
    """Scale a picture to cover the canvas, cut what hangs over evenly, and convert it to BT.709 limited range."""
    scale = max(Fraction(canvas.width, frame.width), Fraction(canvas.height, frame.height))
    width, height = (_even(side * scale) for side in (frame.width, frame.height))
    scaled = frame.reformat(
        width=width,
        height=height,
        format="yuv420p",
        src_colorspace=_colorspace(frame),
        dst_colorspace=Colorspace.ITU709,
        src_color_range=ColorRange.JPEG if frame.color_range == ColorRange.JPEG else ColorRange.MPEG,
        dst_color_range=ColorRange.MPEG,
        interpolation=Interpolation.BICUBIC,
    ).to_ndarray()
    luma = scaled[:height]
    chroma = scaled[height:].reshape(2, height // 2, width // 2)
    left, top = ((width - canvas.width) // 4 * 2, (height - canvas.height) // 4 * 2)
    return (
        luma[top : top + canvas.height, left : left + canvas.width],
        *(
            plane[top // 2 : (top + canvas.height) // 2, left // 2 : (left + canvas.width) // 2]
            for plane in chroma
        ),
    )  # type: ignore[return-value]


def _even(side: Fraction) -> int:
    return -(-side.numerator // side.denominator) + 1 & ~1


def _colorspace(frame: av.VideoFrame) -> Colorspace:
    """What the file says; where it says nothing, what decoders assume: BT.709 for HD, BT.601 below."""
    if frame.colorspace == Colorspace.ITU709:
        return Colorspace.ITU709
    if frame.colorspace in (Colorspace.ITU601, Colorspace.ITU624):
        return Colorspace.ITU601
    return Colorspace.ITU709 if frame.height >= _HD_LINES else Colorspace.ITU601

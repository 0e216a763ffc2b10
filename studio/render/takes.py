"""Camera takes, frame by frame, fitted to the canvas.

A take keeps its own clock: the picture shown at a moment is the last one whose time has come, so takes of
another rate, or of no steady rate, stay in step with their sound. The last picture is held past the end.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain

import av
import numpy as np
from av.container import InputContainer
from av.error import FFmpegError
from av.video.reformatter import ColorRange, Colorspace, Interpolation
from numpy.typing import NDArray

from studio.project.episode_values import Canvas

Taken = tuple[NDArray[np.uint8], NDArray[np.uint8], NDArray[np.uint8]]
Timed = tuple[Fraction, av.VideoFrame]
_HD_LINES = 720
_GRACE = Fraction(1, 1000)  # clocks of files are rounded, often to milliseconds; a picture keeps its place


@dataclass(frozen=True)
class Take:
    """Part of a camera file: from `start` seconds of its own time; not shown past `end`."""

    path: str
    digest: str
    start: Fraction
    end: Fraction


class TakeError(Exception):
    """A take whose pictures cannot be read; `str()` is one plain sentence."""


def take_frames(take: Take, canvas: Canvas, count: int) -> Iterator[Taken]:
    """`count` pictures at the canvas's rate, as Y, U and V planes of its size. Raises TakeError."""
    pictures = _pictures_from(take)
    shown = next(pictures, None)
    if shown is None:
        raise TakeError(_unreadable(take))
    following = next(pictures, None)
    fitted = fit(shown[1], canvas)
    for number in range(count):
        moment, late = take.start + number / canvas.rate, shown
        while following and following[0] <= moment + _GRACE:
            shown, following = following, next(pictures, None)
        if shown is not late:
            fitted = fit(shown[1], canvas)
        yield fitted


def _pictures_from(take: Take) -> Iterator[Timed]:
    """Pictures from the last one at or before the take's start.

    Some files have no index to seek by; where a seek lands too late, or nowhere, the file is read from its
    beginning.
    """
    try:
        for seek in (True, False):
            with av.open(take.path) as container:
                pictures = _decoded(container, take, seek)
                first = next(pictures, None)
                if first and (first[0] <= take.start + _GRACE or not seek):
                    yield from _trimmed(chain([first], pictures), take)
                    return
    except FFmpegError:
        raise TakeError(_unreadable(take)) from None


def _decoded(container: InputContainer, take: Take, seek: bool) -> Iterator[Timed]:
    """(seconds of the take's own time, picture) for each picture that the file gives."""
    stream = container.streams.video[0]
    stream.thread_type = "AUTO"
    tick = stream.time_base or Fraction(1, 90_000)
    origin = Fraction(stream.start_time or 0) * tick
    if seek:
        container.seek(int((take.start + origin) / tick), stream=stream, backward=True)
    for frame in container.decode(stream):
        yield Fraction(frame.pts or 0) * tick - origin, frame


def _trimmed(pictures: Iterator[Timed], take: Take) -> Iterator[Timed]:
    """The pictures up to the take's end, and one at least."""
    for number, (at, frame) in enumerate(pictures):
        if number and at >= take.end:
            return
        yield at, frame


def _unreadable(take: Take) -> str:
    return f"The pictures of {take.path} cannot be read after {float(take.start):.2f} s; is the file whole?"


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

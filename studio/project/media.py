"""What a media file holds: how long it is, and whether it has sound and a picture."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from studio.project.complaints import MisfitError


@dataclass(frozen=True)
class Media:
    """`seconds` is exact where the file states its samples or frames.

    `rate` is frames a second, 0 without picture; `sample_rate` in Hz and `channels` are 0 without sound.
    """

    path: Path
    seconds: Fraction
    has_sound: bool
    has_picture: bool
    width: int = 0
    height: int = 0
    rate: Fraction = Fraction(0)
    sample_rate: int = 0
    channels: int = 0


def probe(path: Path) -> Media:
    """Open a media file and say what it holds. Raises MisfitError when it is no media file."""
    import av

    try:
        with av.open(str(path)) as container:
            sound = next(iter(container.streams.audio), None)
            picture = next((stream for stream in container.streams.video if not _is_cover(stream)), None)
            if sound is None and picture is None:
                raise MisfitError(f"'{path.name}' holds neither sound nor picture")
            seconds = _seconds(container, picture if picture is not None else sound)
            return Media(
                path=path,
                seconds=seconds,
                has_sound=sound is not None,
                has_picture=picture is not None,
                width=picture.width if picture is not None else 0,
                height=picture.height if picture is not None else 0,
                rate=Fraction(picture.average_rate or 0) if picture is not None else Fraction(0),
                sample_rate=sound.rate if sound is not None else 0,
                channels=sound.channels if sound is not None else 0,
            )
    except av.FFmpegError:
        raise MisfitError(
            f"'{path.name}' cannot be read as sound or video; is it whole, and is it a media file?"
        ) from None


def _is_cover(stream: Any) -> bool:
    """Whether a picture stream is the cover art of a sound file."""
    import av

    return bool(stream.disposition & av.stream.Disposition.attached_pic)


def _seconds(container: Any, stream: Any) -> Fraction:
    if stream.duration and stream.time_base:
        return Fraction(stream.duration * stream.time_base)
    if container.duration:  # containers such as Matroska state only this, in microseconds
        return Fraction(container.duration, 1_000_000)
    end = Fraction(0)
    for packet in container.demux(
        stream
    ):  # a stream of unstated length, as some recorders write: walk through it
        if packet.pts is not None:
            end = max(end, (packet.pts + (packet.duration or 0)) * packet.time_base)
    if not end:
        raise MisfitError("this file is empty: it holds no sound or picture at all")
    return end

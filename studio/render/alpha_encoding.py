"""What writing a picture with alpha comes to, in any codec: packets, one for each frame."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator

from av.packet import Packet
from av.stream import Stream
from av.video.stream import VideoStream

from studio.project.episode_values import Canvas
from studio.render.overlay_picture import OverlayPicture, Shown
from studio.render.painter import Kept
from studio.timeline.state import Box

_ROOM_BYTES = 64 << 20


class Encoding(ABC):
    """A stream that is being written."""

    def __init__(self, stream: VideoStream, canvas: Canvas) -> None:
        self.stream, self.canvas = stream, canvas

    @abstractmethod
    def packets(
        self, picture: OverlayPicture, shown: tuple[Shown, ...], count: int
    ) -> Iterator[Packet[Stream]]:
        """A packet, which has no time yet, for each of `count` frames that look the same."""


class Intra(Encoding):
    """A codec in which a packet says all about its frame, so that it may be written wherever that frame is."""

    def __init__(self, stream: VideoStream, canvas: Canvas) -> None:
        super().__init__(stream, canvas)
        self._kept = Kept(_ROOM_BYTES)

    def packets(
        self, picture: OverlayPicture, shown: tuple[Shown, ...], count: int
    ) -> Iterator[Packet[Stream]]:
        data: bytes = self._kept.get(shown, lambda: self.encoded(picture, picture.show(shown)), len)
        for _ in range(count):
            packet = Packet(data)
            packet.is_keyframe = True
            yield packet

    @abstractmethod
    def encoded(self, picture: OverlayPicture, changed: Box | None) -> bytes:
        """The packet of a picture, which changed only within a rectangle since the call before."""

"""VP9 with alpha: two streams in one, of colour and of alpha, as WebM holds them.

Both are lossless, as that is smaller here than any other quality: overlays are flat. An unchanged frame is one
byte in each stream, which asks for the frame before once more (VP9 bitstream specification, 7.2:
`show_existing_frame`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from av.packet import Packet, PacketSideData, packet_sidedata_type_from_literal
from av.stream import Stream
from av.video.frame import PictureType
from av.video.stream import VideoStream

from studio.project.episode_values import Canvas
from studio.render.alpha_encoding import Encoding
from studio.render.alpha_samples import eight_bits
from studio.render.overlay_picture import OverlayPicture, Shown

OPTIONS = {
    "lossless": "1",
    "deadline": "realtime",
    "cpu-used": "8",
    # Threads share a frame by its columns of tiles, which gives the same bytes for any number of them; rows would not.
    "row-mt": "0",
    "tile-columns": "2",
    # A packet for each frame at once, and none that leans on the frame shown before it but through a reference:
    # that one may be a repeat, which the encoder knows nothing of.
    "lag-in-frames": "0",
    "error-resilient": "default",
}
_KEY_SECONDS = 4  # where a player may start
_ALPHA: Final = "matroska_block_additional"  # ALPHA_MODE of Matroska: BlockAdditional 1 is the alpha stream
_ALPHA_ID = (1).to_bytes(8, "big")


class Vp9(Encoding):
    """Encodes frames that differ, and repeats the others; every few seconds a frame stands by itself."""

    def __init__(self, stream: VideoStream, canvas: Canvas) -> None:
        super().__init__(stream, canvas)
        stream.metadata["alpha_mode"] = "1"
        self._encoded = 0
        self._next_key = 0
        self._frame = 0

    def packets(
        self, picture: OverlayPicture, shown: tuple[Shown, ...], count: int
    ) -> Iterator[Packet[Stream]]:
        picture.show(shown)
        drawn = eight_bits(picture.pixels)
        packet: Packet[Stream]
        again: Repeat | None = None
        for _ in range(count):
            if again is None or self._frame >= self._next_key:
                drawn.pts, drawn.pict_type = self._encoded, self._picture_type()
                (packet,) = self.stream.encode(drawn)
                again = repeat_of(packet)
                self._encoded += 1
            else:
                packet = again.packet()
            self._frame += 1
            yield packet

    def _picture_type(self) -> PictureType:
        if self._frame < self._next_key:
            return PictureType.NONE
        self._next_key = self._frame + round(_KEY_SECONDS * self.canvas.rate)
        return PictureType.I


@dataclass(frozen=True)
class Repeat:
    """The byte of colour and the byte of alpha that show a frame once more."""

    colour: bytes
    alpha: bytes

    def packet(self) -> Packet[Stream]:
        packet = Packet(self.colour)
        beside = _ALPHA_ID + self.alpha
        data = PacketSideData(packet_sidedata_type_from_literal(_ALPHA), len(beside))  # type: ignore[call-arg]
        data.update(beside)
        packet.set_sidedata(data, move=True)
        return packet


def repeat_of(packet: Packet[Stream]) -> Repeat | None:
    """How to repeat the frame of an encoder's packet; None where the decoder keeps nothing of it."""
    colour = _again(bytes(packet))
    alpha = _again(bytes(packet.get_sidedata(_ALPHA))[len(_ALPHA_ID) :])
    return Repeat(colour, alpha) if colour and alpha else None


def _again(frame: bytes) -> bytes | None:
    """The frame that shows the slot that a frame is kept in: marker 10, profile 00, show_existing_frame 1, slot.

    A key frame is kept in every slot. Another frame that is shown, and encoded to resist errors, names its
    slots in its second byte (7.2: refresh_frame_flags).
    """
    first, kept = frame[0], frame[1]
    if not first & 0b0000_0100:
        kept = 0xFF
    elif first & 0b1111_1011 != 0b1000_0011:
        return None
    slot = (kept & -kept).bit_length() - 1
    return bytes([0b1000_1000 | slot]) if kept else None

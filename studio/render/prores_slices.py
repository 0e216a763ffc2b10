"""ProRes frames by the slice: what did not change since the frame before is not encoded again.

A ProRes frame is a table of slices, each up to eight macroblocks (128 pixels) wide and one (16 pixels) tall,
coded without regard to any other (SMPTE RDD 36, 5.3). So the slices of a part of the picture, encoded as a small
picture of its own, can stand in the frame in place of the old ones; the tests find them the same to the byte as
those of a frame that was encoded whole.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass

from studio.timeline.state import Box

SLICE_WIDTH, SLICE_HEIGHT = 128, 16
_COLOUR = 18  # where in a frame's header, from its identifier on, the three codes of its colours are
_MACROBLOCK, _SLICE_MACROBLOCKS = 16, 8


def slices_across(width: int) -> int:
    """Slices in a row of a picture: of eight macroblocks, and the rest in powers of two (RDD 36, 7.1)."""
    whole, rest = divmod(-(-width // _MACROBLOCK), _SLICE_MACROBLOCKS)
    return whole + rest.bit_count()


def aligned(changed: Box, width: int, height: int) -> Box:
    """The least rectangle of whole slices around a part of a picture. At the right edge, where slices are
    narrower, it takes all that is left."""
    x, y = (changed.x // SLICE_WIDTH * SLICE_WIDTH, changed.y // SLICE_HEIGHT * SLICE_HEIGHT)
    right = -(-changed.right // SLICE_WIDTH) * SLICE_WIDTH
    if right > width // SLICE_WIDTH * SLICE_WIDTH:
        right = width
    bottom = min(-(-changed.bottom // SLICE_HEIGHT) * SLICE_HEIGHT, height)
    return Box(x, y, right - x, bottom - y)


@dataclass
class Frame:
    """A progressive ProRes frame taken apart: its headers, and its slices row by row."""

    header: bytes  # from the frame's identifier up to its first picture
    picture: bytes  # the picture's header
    slices: list[bytes]

    def __bytes__(self) -> bytes:
        table = struct.pack(f">{len(self.slices)}H", *map(len, self.slices))
        body = table + b"".join(self.slices)
        size = struct.pack(">I", len(self.picture) + len(body))
        picture = self.picture[:1] + size + self.picture[5:]
        rest = self.header + picture + body
        return struct.pack(">I", len(rest) + 4) + rest

    def tag_bt709(self) -> None:
        """Say in the header that primaries, transfer and matrix are those of ITU-R BT.709 (RDD 36, 5.1.1)."""
        self.header = self.header[:_COLOUR] + bytes([1, 1, 1]) + self.header[_COLOUR + 3 :]

    def put(self, part: Frame, place: Box, width: int) -> None:
        """Put the slices of `part`, a picture of `place`, where they belong in this frame of `width` pixels."""
        across, part_across = slices_across(width), slices_across(place.width)
        first = place.x // SLICE_WIDTH
        for row in range(-(-place.height // SLICE_HEIGHT)):
            at = (place.y // SLICE_HEIGHT + row) * across + first
            self.slices[at : at + part_across] = part.slices[row * part_across : (row + 1) * part_across]


def taken_apart(data: bytes) -> Frame:
    """A frame from the bytes of a packet (RDD 36, 5.1 to 5.3)."""
    header_end = 8 + struct.unpack_from(">H", data, 8)[0]
    picture_end = header_end + (data[header_end] >> 3)
    (count,) = struct.unpack_from(">H", data, header_end + 5)
    sizes = struct.unpack_from(f">{count}H", data, picture_end)
    at, slices = picture_end + 2 * count, []
    for size in sizes:
        slices.append(data[at : at + size])
        at += size
    return Frame(data[4:header_end], data[header_end:picture_end], slices)

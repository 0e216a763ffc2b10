"""Slices encoded by themselves are those of a frame encoded whole, and a frame put together is a frame."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from av.video.codeccontext import VideoCodecContext

from studio.render.alpha_samples import TEN_BITS, ten_bits
from studio.render.prores_slices import aligned, slices_across, taken_apart
from studio.timeline.state import Box

SIZES = [(1920, 1080), (1080, 1920), (1080, 1080), (640, 360), (250, 242)]


def encode(rgba: np.ndarray) -> bytes:
    encoder = VideoCodecContext.create("prores_ks", "w")
    assert isinstance(encoder, VideoCodecContext)
    encoder.height, encoder.width = rgba.shape[:2]
    encoder.pix_fmt, encoder.time_base = TEN_BITS, Fraction(1)
    (packet,) = encoder.encode(ten_bits(rgba))
    return bytes(packet)


def scene(width: int, height: int, seed: int) -> np.ndarray:
    """Flat areas, slopes, and a patch of noise."""
    random = np.random.default_rng(seed)
    y, x = np.mgrid[0:height, 0:width]
    rgba = np.stack([x % 256, y % 256, (x + y) // 3 % 256, np.full_like(x, 255)], axis=-1).astype(np.uint8)
    rgba[: height // 2, ..., 3] = 0
    left, top = random.integers(0, width // 2), random.integers(0, height // 2)
    part = rgba[top : top + height // 3, left : left + width // 3]
    part[...] = random.integers(0, 256, part.shape, np.uint8)
    return rgba


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.slow
def test_a_frame_is_the_same_in_parts_and_whole(width: int, height: int) -> None:
    one, two = scene(width, height, 1), scene(width, height, 2)
    for changed in (
        Box(0, 0, 2, 2),
        Box(width - 2, height - 2, 2, 2),
        Box(width // 3 // 2 * 2, height // 4 // 2 * 2, width // 2 // 2 * 2, height // 2 // 2 * 2),
    ):
        after = one.copy()
        rows, columns = slice(changed.y, changed.bottom), slice(changed.x, changed.right)
        after[rows, columns] = two[rows, columns]
        place = aligned(changed, width, height)
        frame = taken_apart(encode(one))
        part = after[place.y : place.bottom, place.x : place.right]
        frame.put(taken_apart(encode(part)), place, width)
        assert bytes(frame) == encode(after)


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_taking_apart_and_putting_together_changes_nothing(width: int, height: int) -> None:
    data = encode(scene(width, height, 3))
    frame = taken_apart(data)
    assert bytes(frame) == data
    assert len(frame.slices) == slices_across(width) * -(-height // 16)


def test_rows_of_slices() -> None:
    # SMPTE RDD 36, 7.1 (from memory): eight macroblocks to a slice, what is left in powers of two, the widest first.
    # 1920 pixels are 120 macroblocks, 15 slices; 720 are 45: five of eight, one of four, one of one.
    assert [slices_across(width) for width in (1920, 1280, 720, 128, 16)] == [15, 10, 7, 1, 1]

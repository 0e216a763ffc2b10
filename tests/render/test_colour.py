"""BT.709, limited range, against the standard's own numbers and against ffmpeg's conversion."""

import av
import numpy as np
import pytest
from av.video.reformatter import ColorRange, Colorspace
from hypothesis import given
from hypothesis import strategies as st

from studio.render.colour import blend, to_patch, to_ycbcr

# ITU-R BT.709-6 items 3.2, 3.3 and 4.6: black 16, white 235; the primaries by the weights of luma.
STANDARD = {
    (255, 255, 255): (235, 128, 128),
    (0, 0, 0): (16, 128, 128),
    (255, 0, 0): (63, 102, 240),
    (0, 255, 0): (173, 42, 26),
    (0, 0, 255): (32, 240, 118),
}


@pytest.mark.parametrize(("rgb", "expected"), STANDARD.items())
def test_primaries_have_the_code_values_of_bt_709(rgb: tuple[int, ...], expected: tuple[int, ...]) -> None:
    found = to_ycbcr(np.array(rgb, np.float32) / 255)
    assert np.abs(np.rint(found) - expected).max() <= 1


@given(st.tuples(*[st.integers(0, 255)] * 3))
def test_a_flat_colour_agrees_with_swscale(rgb: tuple[int, int, int]) -> None:
    # Source: FFmpeg's swscale through PyAV, told to use BT.709 and limited range.
    flat = np.full((16, 16, 3), rgb, np.uint8)
    frame = av.VideoFrame.from_ndarray(flat, "rgb24").reformat(
        format="yuv444p",
        src_colorspace=Colorspace.ITU709,
        dst_colorspace=Colorspace.ITU709,
        src_color_range=ColorRange.JPEG,
        dst_color_range=ColorRange.MPEG,
    )
    theirs = frame.to_ndarray()[:, 8, 8]
    assert np.abs(np.rint(to_ycbcr(np.array(rgb, np.float32) / 255)) - theirs).max() <= 2


def planes(value: int = 120) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    return tuple(np.full(shape, value, np.uint8) for shape in ((8, 8), (4, 4), (4, 4)))  # type: ignore[return-value]


def rgba(colour: tuple[int, int, int, int]) -> np.ndarray:
    return np.full((4, 4, 4), colour, np.uint8)


def test_an_opaque_patch_replaces_and_a_clear_one_leaves_alone() -> None:
    canvas = planes()
    blend(canvas, to_patch(rgba((255, 255, 255, 0))), 2, 2)
    assert all((plane == 120).all() for plane in canvas)
    blend(canvas, to_patch(rgba((255, 255, 255, 255))), 2, 2)
    assert (canvas[0][2:6, 2:6] == 235).all() and (canvas[1][1:3, 1:3] == 128).all()
    assert (canvas[0][:2] == 120).all() and (canvas[0][:, 6:] == 120).all()


@given(st.integers(0, 255), st.integers(16, 235), st.floats(0, 1))
def test_blending_mixes_by_alpha_within_rounding(alpha: int, ground: int, opacity: float) -> None:
    canvas = planes(ground)
    blend(canvas, to_patch(rgba((255, 255, 255, alpha)), opacity), 2, 2)
    part = alpha / 255 * opacity
    assert abs(float(canvas[0][3, 3]) - (235 * part + ground * (1 - part))) <= 1.5


def test_a_patch_of_odd_size_is_refused() -> None:
    with pytest.raises(ValueError, match="even"):
        to_patch(np.zeros((3, 4, 4), np.uint8))

"""Empty pixels take the colour of what stands nearest, and nothing that is seen changes."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from studio.render.extended_colours import extended

GROUND = (26, 33, 38)


def test_around_a_shape_of_one_colour_there_is_only_that_colour() -> None:
    y, x = np.mgrid[0:90, 0:120]
    rgba = np.zeros((90, 120, 4), np.uint8)
    rgba[..., 3] = np.clip(40 - np.hypot(x - 60, y - 45), 0, 1) * 255
    rgba[rgba[..., 3] > 0, :3] = (240, 180, 60)
    wide = extended(rgba, 16, GROUND)
    assert wide.shape == (122, 152, 4)
    near = wide[16 + 5 : 16 + 85, 16 + 20 : 16 + 100, :3]
    assert (near == (240, 180, 60)).all()


def test_half_a_picture_each_keeps_its_own_colour() -> None:
    rgba = np.zeros((64, 64, 4), np.uint8)
    rgba[24:40, 4:28], rgba[24:40, 36:60] = (200, 0, 0, 255), (0, 0, 200, 128)
    wide = extended(rgba, 0, GROUND)
    assert tuple(wide[20, 10]) == (200, 0, 0, 0)
    assert tuple(wide[20, 50]) == (0, 0, 200, 0)


def test_where_nothing_is_near_the_ground_s_colour_lies() -> None:
    assert (extended(np.zeros((20, 20, 4), np.uint8), 8, GROUND) == (*GROUND, 0)).all()


@given(
    arrays(np.uint8, st.tuples(st.integers(1, 40), st.integers(1, 40), st.just(4))), st.sampled_from([0, 16])
)
@settings(max_examples=50)
def test_what_is_seen_stays_and_alpha_stays(rgba: np.ndarray, margin: int) -> None:
    rgba[::3, :, 3] = 0
    wide = extended(rgba, margin, GROUND)
    inner = wide[margin : margin + rgba.shape[0], margin : margin + rgba.shape[1]]
    seen = rgba[..., 3] > 0
    assert (inner[seen] == rgba[seen]).all()
    assert (inner[..., 3] == rgba[..., 3]).all()
    assert wide[..., 3].sum() == rgba[..., 3].sum(dtype=int)

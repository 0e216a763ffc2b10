from __future__ import annotations

import numpy as np
import pytest

from studio.drawing.paint import Sheet
from studio.drawing.waves.shape import SHADE, Shape, draw_full, draw_hollow

CHALK = (240, 236, 226)
LENS: Shape = [(20.0 + 4 * n, 50.0 - 4 * min(n, 20 - n), 50.0 + 4 * min(n, 20 - n)) for n in range(21)]
"""From nothing to 80 pixels tall and back, 80 pixels long."""


def alpha(sheet: Sheet) -> np.ndarray:
    return np.asarray(sheet.picture)[..., 3]


def test_a_full_shape_has_the_area_that_it_should() -> None:
    sheet = Sheet((120, 100))
    draw_full(sheet, LENS, CHALK)
    # Two triangles of 40 by 80 pixels.
    assert alpha(sheet).sum() / 255 == pytest.approx(40 * 80, rel=0.02)


def test_a_hollow_shape_has_the_same_outline_and_a_shade_within() -> None:
    full, hollow = Sheet((120, 100)), Sheet((120, 100))
    draw_full(full, LENS, CHALK)
    draw_hollow(hollow, LENS, 3.0, CHALK)
    one, two = alpha(full), alpha(hollow)
    assert ((one > 128) == (two >= SHADE - 8)).mean() > 0.99
    assert two[50, 60] == SHADE and two[12, 60] == 255 == two[88, 60]
    assert not two[one == 0].any()


def test_where_its_wall_leaves_no_room_a_hollow_shape_is_full() -> None:
    thin: Shape = [(10.0, 48.0, 52.0), (60.0, 48.0, 52.0), (110.0, 48.0, 52.0)]
    sheet = Sheet((120, 100))
    draw_hollow(sheet, thin, 2.0, CHALK)
    assert (alpha(sheet)[49:51, 12:108] == 255).all()

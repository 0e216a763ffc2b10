from __future__ import annotations

import numpy as np

from studio.drawing.map.texture import HOLLOW, KINDS, fill
from studio.drawing.paint import Sheet

CHALK = (240, 236, 226)


def filled(texture: int, unit: float = 8.0) -> np.ndarray:
    sheet = Sheet((240, 80))
    fill(sheet, (20, 10, 220, 70), texture, unit, CHALK)
    return np.asarray(sheet.picture)[..., 3] / 255


def test_textures_are_told_apart_at_the_size_of_a_phone() -> None:
    # A canvas 1920 wide on a phone 360 wide: what was 16 by 16 pixels is 3 by 3. Two textures differ if their
    # pictures at that size do, whichever way the one is laid over the other.
    def small(texture: int) -> np.ndarray:
        picture = filled(texture)[10:70, 20:220]
        return np.asarray(picture[:60, :200].reshape(12, 5, 40, 5).mean(axis=(1, 3)))

    pictures = [small(texture) for texture in range(KINDS)]
    for one in range(KINDS):
        for other in range(one):
            shifted = [
                np.abs(np.roll(pictures[other], (y, x), (0, 1)) - pictures[one]).mean()
                for y in range(6)
                for x in range(8)
            ]
            assert min(shifted) > 0.06, (one, other)


def test_a_texture_stays_in_its_box() -> None:
    for texture in range(KINDS):
        ink = filled(texture)
        assert ink[10:70, 20:220].any()
        ink[10:70, 20:220] = 0
        assert not ink.any()


def test_hollow_leaves_the_box_as_it_is() -> None:
    assert not filled(HOLLOW).any()


def test_full_chalk_is_full_and_the_others_let_the_slate_through() -> None:
    shares = [filled(texture)[10:70, 20:220].mean() for texture in range(KINDS)]
    assert shares[0] == 1.0
    assert all(0.15 < share < 0.75 for share in shares[1:])


def test_a_ninth_kind_begins_again() -> None:
    assert np.array_equal(filled(KINDS), filled(0))

from __future__ import annotations

import numpy as np
import pytest

from studio.sound.fold import to_two_sides

# ITU-R BS.775, annex 4: coefficients of the fold-down to two channels, from memory (0.7071 is -3 dB).
# test_source compares the same fold with ffmpeg's.
BS_775 = {
    "FL": (1.0, 0.0),
    "FR": (0.0, 1.0),
    "FC": (0.7071, 0.7071),
    "LFE": (0.0, 0.0),
    "BL": (0.7071, 0.0),
    "BR": (0.0, 0.7071),
    "SL": (0.7071, 0.0),
    "SR": (0.0, 0.7071),
    "BC": (0.5, 0.5),
}


@pytest.mark.parametrize("name", BS_775)
def test_each_channel_goes_where_the_standard_puts_it(name: str) -> None:
    names = ["FL", "FR", "FC", "LFE", "BL", "BR", "SL", "SR", "BC"]
    sound = np.zeros((1, len(names)), np.float32)
    sound[0, names.index(name)] = 1.0
    assert to_two_sides(sound, names)[0] == pytest.approx(BS_775[name], abs=1e-4)


def test_six_unnamed_channels_are_five_point_one() -> None:
    left_surround = np.zeros((1, 6), np.float32)
    left_surround[0, 4] = 1.0
    assert to_two_sides(left_surround)[0] == pytest.approx((0.7071, 0.0), abs=1e-4)


def test_stereo_is_left_alone() -> None:
    sound = np.arange(8, dtype=np.float32).reshape(4, 2)
    assert np.array_equal(to_two_sides(sound), sound)

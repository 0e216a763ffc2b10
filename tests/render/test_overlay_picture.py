"""Composing only what changed gives the picture that composing everything gives."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings

from studio.drawing.themes.theme import default_theme
from studio.render.overlay_picture import OverlayPicture, over, runs
from studio.timeline.state import Layer
from tests.render.toy_overlays import SMALL, composed, lane, some_layers, toys

__all__ = ["toys"]
FRAMES = 40
UNDER_A_PATCH = settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])


@given(some_layers)
@UNDER_A_PATCH
def test_every_frame_is_what_pillow_composes(toys: None, layers: tuple[Layer, ...]) -> None:
    # Reference: Pillow's alpha_composite. It and we round once for each layer, so two layers may differ by 2.
    picture, at = OverlayPicture(SMALL, layers, default_theme()), 0
    for shown, count in runs(layers, FRAMES):
        before = picture.pixels.copy()
        changed = picture.show(shown)
        outside = np.ones(before.shape[:2], bool)
        if changed:
            outside[changed.y : changed.bottom, changed.x : changed.right] = False
        assert (before == picture.pixels)[outside].all()
        for frame in {at, at + count - 1}:
            expected = composed(SMALL, layers, frame)
            assert np.abs(picture.pixels[..., 3] - expected[..., 3].astype(int)).max() <= 2
            plain = expected[..., 3] > 100  # where alpha is small, a step of it is many of colour
            differ = np.abs(picture.pixels[plain] - expected[plain].astype(int))
            assert differ.max(initial=0) <= 4
        at += count
    assert at == FRAMES


def test_a_run_ends_where_something_changes_and_nowhere_else(toys: None) -> None:
    layers = lane()
    found = list(runs(layers, 60))
    assert sum(count for _, count in found) == 60
    assert all(one[0] != two[0] for one, two in pairwise(found))
    ends = np.cumsum([count for _, count in found])[:-1]
    frames = [composed(SMALL, layers, frame) for frame in range(60)]
    changes = [n for n in range(1, 60) if (frames[n] != frames[n - 1]).any()]
    assert list(ends) == changes


@pytest.mark.parametrize("upper", [0, 1, 128, 254, 255])
@pytest.mark.parametrize("lower", [0, 1, 128, 255])
def test_one_over_another(upper: int, lower: int) -> None:
    # Porter and Duff 1984, in exact numbers.
    target = np.array([[[200, 10, 90, lower]]], np.uint8)
    over(target, np.array([[[20, 250, 60]]], np.uint8), np.array([[upper]], np.uint8))
    a, b = upper / 255, lower / 255
    whole = a + b * (1 - a)
    assert abs(int(target[0, 0, 3]) - 255 * whole) <= 0.5
    for n, (one, two) in enumerate(zip((20, 250, 60), (200, 10, 90), strict=True)):
        if whole:
            assert abs(int(target[0, 0, n]) - (one * a + two * b * (1 - a)) / whole) <= 0.51

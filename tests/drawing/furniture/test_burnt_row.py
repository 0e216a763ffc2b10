"""The row along the top as it is drawn: its fields stand apart, and the words of the scratch voice are whole."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from studio.drawing.draw import draw
from studio.drawing.themes.theme import default_theme
from studio.project.episode_values import read_canvas
from studio.timeline.burnt import SCRATCH, burnt_layers, burnt_over, scratch_layer
from studio.timeline.furniture import Burnt

THEME = default_theme()


@pytest.mark.parametrize("size", ["1920x1080", "1080x1920", "1080x1080", "640x360"])
@pytest.mark.parametrize("rate", ["30", "29.97"])
def test_name_scratch_voice_and_timecode_are_drawn_apart(size: str, rate: str) -> None:
    canvas = read_canvas(f"{size} @ {rate}")
    row = burnt_over(burnt_layers(12, "A name " * 30, 90, canvas), scratch_layer(90, canvas), canvas)
    spans = []
    for layer in row:
        picture = draw(
            layer.kind, layer.content, layer.states[0].look, (layer.box.width, layer.box.height), THEME
        )
        columns = np.flatnonzero(np.asarray(picture)[:, :, 3].any(axis=0))
        spans.append((layer.box.x + columns[0], layer.box.x + columns[-1] + 1))
    name, voice, seconds, counts = spans
    unit = min(canvas.width, canvas.height) / 135
    for one, two in pairwise((name, voice, seconds)):
        assert two[0] - one[1] >= unit
    assert seconds[1] == counts[0]


def test_the_words_are_never_shortened() -> None:
    """With room to spare they look the same."""
    layer = scratch_layer(90, read_canvas("1080x1080 @ 30"))
    width, height = layer.box.width, layer.box.height
    fitted = np.asarray(draw(layer.kind, layer.content, SCRATCH, (width, height), THEME))
    spacious = np.asarray(draw(Burnt.kind, Burnt(SCRATCH), SCRATCH, (width + 200, height), THEME))
    assert np.array_equal(fitted, spacious[:, :width])
    assert not spacious[:, width:, 3].any()

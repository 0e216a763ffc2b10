"""What is rendered is where the timeline says: strokes on every beat of a song, cut, slowed, repeated and counted in.

The project's own requirement is 2 ms. Where the strokes should be is worked out by counting (see `long_song`).
"""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest
import soundfile

from studio.sound.excerpt import render
from studio.timeline.heard import RATE

from ..sound.hearing import late, strokes
from .long_song import beats, excerpt_of, placed, second_of, sound
from .test_heard_again import expected, heard_to, nearest


@pytest.fixture(scope="module")
def recording(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The song as strokes on its counted beats."""
    path = tmp_path_factory.mktemp("song") / "strokes.wav"
    at = [nearest(second_of(quarters), RATE) for _, _, quarters in beats(F(-1), F(28))]
    soundfile.write(path, strokes(at, RATE * 20), RATE, subtype="FLOAT")
    return path


@pytest.mark.parametrize("speed", [F(1, 2), F(3, 4), F(1), F(5, 4)], ids=str)
def test_every_stroke_is_heard_where_the_timeline_says(recording: Path, speed: F) -> None:
    excerpt = excerpt_of(
        F(4), F(16), F(0), F(3), repeat=3, speed=speed, at=F(1), sources=(sound(recording.as_posix()),)
    )
    cut = placed(excerpt).plan.laid.cut
    heard = render(cut)
    assert heard.shape == (cut.length, 2)
    assert excerpt.at is not None
    wanted = [
        nearest(expected(excerpt, number, quarters) - excerpt.at, RATE)
        for number in range(excerpt.passes)
        for _, _, quarters in beats(F(4), heard_to(excerpt, number))
    ]
    # Whole strokes: the very first is under the fade that keeps the edge from clicking, the last ones fade in the tail.
    whole = [at for at in wanted if cut.lead < at and at + RATE // 10 < cut.length - cut.fade_out]
    assert len(whole) > 20 and np.abs(late(heard, whole)).max() <= 2


def test_a_count_in_is_heard_where_it_is_planned(recording: Path) -> None:
    cut = placed(
        excerpt_of(F(16), F(25), F(8), speed=F(4, 5), sources=(sound(recording.as_posix()),))
    ).plan.laid.cut
    before = [click.at for click in cut.clicks]
    assert len(before) == 6 and np.abs(late(render(cut), before)).max() <= 2

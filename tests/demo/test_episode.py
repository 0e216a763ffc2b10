"""The demo episode: every feature of the program is in it, and its song time is exact at every tick."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path

import pytest

from studio.build import Opened, open_project
from studio.drawing.kinds import KINDS

DEMO = Path(__file__).resolve().parents[2] / "demo_project"


@pytest.fixture(scope="module")
def demo() -> Opened:
    return open_project(DEMO)


@pytest.mark.slow
def test_every_tick_of_the_song_goes_to_seconds_and_back(demo: Opened) -> None:
    time, end = demo.project.song.time, demo.project.song.end
    for tick in range(int(-time.pickup * 480), int(end * 480)):
        quarters = F(tick, 480)
        place = time.place(quarters)
        assert time.place(time.quarters_at(time.seconds(time.quarters(place)))) == place


def test_the_episode_uses_every_kind_and_every_feature(demo: Opened) -> None:
    segments = demo.plan.segments
    assert {callout.layer.kind for segment in segments for callout in segment.callouts} == set(KINDS)
    assert len(segments) >= 8 and demo.plan.frames >= 180 * demo.plan.canvas.rate
    assert any(segment.camera for segment in segments)
    assert any(not segment.camera and not segment.excerpt for segment in segments)
    assert any(segment.excerpt and segment.excerpt.names for segment in segments)
    assert any(segment.excerpt and not segment.excerpt.names for segment in segments)
    assert {answer.kind for answer in demo.plan.answers} >= {"numerals", "degree", "tone", "mode", "groove"}
    assert len(demo.project.song.time.anchors) >= 3


def test_excerpts_are_heard_in_every_way(demo: Opened) -> None:
    excerpts = [segment.excerpt for segment in demo.project.segments if segment.excerpt]
    for way in ("tail", "featured", "count_in", "plays", "instead"):
        assert any(getattr(excerpt, way) for excerpt in excerpts), way
    assert any(excerpt.click is not None for excerpt in excerpts)
    assert any(excerpt.speed < 1 for excerpt in excerpts) and any(excerpt.repeat > 1 for excerpt in excerpts)


def test_no_callout_says_nothing(demo: Opened) -> None:
    for segment in demo.plan.segments:
        for callout in segment.callouts:
            assert callout.alt.strip() and callout.layer.states


def test_excerpts_stay_short(demo: Opened) -> None:
    for segment in demo.plan.segments:
        if segment.excerpt:
            assert all(one.length <= 20 * 48_000 for one in segment.excerpt.laid.cut.passes)

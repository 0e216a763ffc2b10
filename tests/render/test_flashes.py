"""Flashes of a clip's overlays, counted on frames that are drawn."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from studio.build import open_project, workshop
from studio.drawing.themes.theme import default_theme
from studio.progress import Quiet
from studio.project.episode_values import read_canvas
from studio.render import flashes as flashes_module
from studio.render import painter as painter_module
from studio.render.flashes import Flashes, flash_findings, flashes
from studio.render.workshop import Workshop
from studio.timeline.plan import CalloutPlan, Plan, SegmentPlan
from studio.timeline.state import Box, Layer, State

CANVAS = read_canvas("1920x1080 @ 24")
WHOLE = Box(0, 0, 1920, 1080)


def flat(kind: str, content: Any, look: int, size: tuple[int, int], theme: object) -> Image.Image:
    """Stands in for drawing: the look is the shade."""
    return Image.fromarray(np.full((size[1], size[0], 4), (look, look, look, 255), np.uint8))


@pytest.fixture
def flats(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(painter_module, "draw", flat)


@pytest.fixture
def shop(tmp_path: Path) -> Workshop:
    return Workshop(tmp_path / "build", default_theme(), 1)


def clip(
    box: Box, every: int, looks: tuple[int, int] = (20, 230), frames: int = 72
) -> tuple[Plan, SegmentPlan]:
    """A clip over whose dark ground one box changes its shade."""
    states = tuple(State(at, at + every, looks[at // every % 2]) for at in range(0, frames, every))
    return episode(Layer("flat", 0, box, states), frames=frames)


def episode(*layers: Layer, frames: int = 72) -> tuple[Plan, SegmentPlan]:
    """A clip with a callout of each layer."""
    callouts = tuple(
        CalloutPlan(f"{number:02}-flat", layer, (), None, (), "A flat box.", None)
        for number, layer in enumerate(layers, 1)
    )
    segment = SegmentPlan(
        id="fast",
        number=1,
        title="Fast",
        start=0,
        frames=frames,
        ground=Layer("flat", 1, WHOLE, (State(0, frames, 20),)),
        camera=None,
        voice=None,
        camera_sound=None,
        ducking=None,
        excerpt=None,
        callouts=callouts,
        strip=None,
        burnt=(),
        script="",
        reading=CANVAS.rate * 0,
    )
    return Plan("Fast", CANVAS, -14.0, -1.0, (segment,), (), ()), segment


LARGE = Box(96, 700, 800, 300)


@pytest.mark.parametrize(("every", "expected"), [(4, 3), (3, 4), (2, 6)])
def test_flashes_in_the_worst_second(flats: None, shop: Workshop, every: int, expected: int) -> None:
    found = flashes(*clip(LARGE, every), shop)
    assert found.general.count == expected
    # Greys are no saturated red; where nothing was drawn, both are what is possible at most.
    assert found.red.count == (0 if found.drawn else expected)


def test_a_box_smaller_than_a_quarter_of_a_field_does_not_count(flats: None, shop: Workshop) -> None:
    # A field is 341×256 of a screen 1024 wide, so 639×480 of this canvas; a quarter of it is 76,725 pixels.
    assert flashes(*clip(Box(0, 0, 270, 280), 2), shop).general.count == 0
    assert flashes(*clip(Box(0, 0, 280, 282), 2), shop).general.count == 6


def test_several_small_boxes_together_count(flats: None, shop: Workshop) -> None:
    states = clip(LARGE, 2)[1].layers[0].states
    boxes = [Box(200 * n, 0, 190, 200) for n in range(3)]
    found = flashes(*episode(*(Layer("flat", n, box, states) for n, box in enumerate(boxes))), shop)
    assert found.general.count == 6


def test_a_change_too_small_to_be_a_flash(flats: None, shop: Workshop) -> None:
    # Shades 170 and 180 of sRGB have relative luminances of 0.40 and 0.46.
    assert flashes(*clip(LARGE, 2, (170, 180)), shop).general.count == 0


def test_calm_clips_are_not_drawn_at_all(
    flats: None, shop: Workshop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(flashes_module, "frames", lambda *_: pytest.fail("frames were drawn"))
    found = flashes(*clip(LARGE, 6), shop)
    assert not found.drawn and found.general.count <= 3


def test_a_fade_is_one_change(flats: None, shop: Workshop) -> None:
    fade = tuple(State(n, n + 1, 230, (n + 1) / 12) for n in range(11))
    out = tuple(State(48 + n, 49 + n, 230, 1 - (n + 1) / 12) for n in range(11))
    found = flashes(*episode(Layer("flat", 0, LARGE, (*fade, State(11, 48, 230), *out))), shop)
    assert not found.drawn and found.general.count == 0


def test_what_was_counted_is_remembered(flats: None, shop: Workshop, monkeypatch: pytest.MonkeyPatch) -> None:
    plan, segment = clip(LARGE, 3)
    first = flashes(plan, segment, shop)
    monkeypatch.setattr(flashes_module, "frames", lambda *_: pytest.fail("frames were drawn again"))
    assert flashes(plan, segment, shop) == first
    with pytest.raises(pytest.fail.Exception):
        flashes(*clip(LARGE, 2), shop)


def test_a_store_that_somebody_wrote_into_is_counted_again(flats: None, shop: Workshop) -> None:
    plan, segment = clip(LARGE, 3)
    first = flashes(plan, segment, shop)
    (kept,) = shop.store.root.rglob("*.flashes")
    kept.write_text('{"general": 3}', "utf-8")
    assert flashes(plan, segment, shop) == first


def test_the_finding_says_where_how_often_and_what_helps(flats: None, shop: Workshop) -> None:
    plan, segment = clip(LARGE, 3)
    (sentence,) = flash_findings(plan, {"fast": flashes(plan, segment, shop)})
    assert sentence.startswith(
        "fast: its overlays flash 4 times in the second from 0.1 s of the clip; more than 3 "
    )
    assert "'when'" in sentence
    calm = clip(LARGE, 4)
    assert not list(flash_findings(calm[0], {"fast": flashes(*calm, shop)}))


PROJECT = """\
episode: {{title: Fast, canvas: 1280x720 @ 60}}
song:
  title: Sixteenths
  by: Nobody
  key: C major
  meter: 4/4
  tempo: {tempo}
  chords: {{1-4: "| C | % | % | % |"}}
  recording: audio/tone.flac
  parts:
    keys: |
      X:1
      M:4/4
      L:1/16
      K:C
      {bar} | {bar} | {bar} | {bar} |
segments:
  - {{id: fast, title: Fast, excerpt: {{where: 1}}, callouts: [{{kind: keyboard, part: keys}}]}}
"""


def keyboard(folder: Path, tempo: int, bar: str) -> Flashes:
    import soundfile

    (folder / "audio").mkdir(parents=True)
    soundfile.write(folder / "audio/tone.flac", np.zeros(48_000 * 20, np.float32), 48_000)
    (folder / "project.yaml").write_text(PROJECT.format(tempo=tempo, bar=bar), "utf-8")
    opened = open_project(folder)
    (segment,) = opened.plan.segments
    return flashes(opened.plan, segment, workshop(opened, Quiet(), 1))


@pytest.mark.slow
def test_a_fast_keyboard_is_drawn_and_counted(tmp_path: Path) -> None:
    # Sixteenths at 180 are 12 changes a second, so what lights on every other one lights six times a second. That is a
    # flash where more than a quarter of a field changes: three keys of a keyboard this small are less than half of
    # that, and all fifteen are more.
    chord = keyboard(tmp_path / "chords", 180, "[CEG]z" * 8)
    assert chord.drawn and chord.general.count == 0
    cluster = keyboard(tmp_path / "clusters", 180, "[CDEFGABcdefgab]z" * 8)
    assert cluster.drawn and cluster.general.count == 6
    assert not keyboard(tmp_path / "slow", 40, "[CDEFGABcdefgab]z" * 8).drawn

"""Moving overlays in a project: asked for by command, kept by a build, told when they are old."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import av
import numpy as np
import pytest
from PIL import Image

from studio.build import build_all, build_overlays, open_project
from studio.cli import run
from studio.timeline.plan import SegmentPlan
from tests.click_episode import write_episode

pytestmark = pytest.mark.slow


def test_a_moving_overlay_lies_over_its_clip_frame_by_frame(tmp_path: Path) -> None:
    opened = open_project(write_episode(tmp_path / "clicks"))
    made = build_overlays(opened, ("chart", "keys"), moving="png")
    assert [path.name for path, _ in made.results if path.suffix == ".mov"] == ["chart.mov", "keys.mov"]
    build_all(opened, ("chart",), workers=1)
    segment: SegmentPlan = opened.plan.segments[1]
    overlay, clip = (_frames(opened.build / place) for place in ("overlays/chart.mov", "clips/chart.mp4"))
    assert len(overlay) == len(clip) == segment.frames
    states = segment.callouts[0].layer.states
    changes = [two.start for one, two in pairwise(states) if one.look != two.look and one.opacity == 1]
    assert len(changes) >= 3
    for (
        at
    ) in changes:  # the overlay of a frame fits the clip's frame, and not the one before or after a change
        assert _off(overlay[at], clip[at]) < min(3.0, _off(overlay[at], clip[at - 1]))
        assert _off(overlay[at - 1], clip[at - 1]) < _off(overlay[at - 1], clip[at])


def _off(overlay: np.ndarray, clip: np.ndarray) -> float:
    """How much an overlay laid over a frame that shows it already changes it, in the mean, where it is solid."""
    under = Image.fromarray(clip).convert("RGBA")
    over = np.asarray(Image.alpha_composite(under, Image.fromarray(overlay)))[..., :3]
    return float(np.abs(over.astype(int) - clip)[overlay[..., 3] > 230].mean())


def _frames(path: Path) -> list[np.ndarray]:
    with av.open(path.as_posix()) as container:
        alpha = path.suffix == ".mov"
        return [
            frame.to_ndarray(format="rgba")
            if alpha
            else frame.reformat(format="rgb24", src_colorspace="itu709").to_ndarray()
            for frame in container.decode(video=0)
        ]


def test_a_build_keeps_what_was_asked_for_and_says_when_it_is_old(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = write_episode(tmp_path / "clicks")
    overlay = folder / "build" / "overlays" / "take.mov"
    assert run(["overlays", str(folder), "take", "--moving", "rle"]) == 0
    assert run(["build", str(folder), "--workers", "1"]) == 0
    assert overlay.is_file() and "overlays/take.mov shows" not in capsys.readouterr().out
    assert "../overlays/take.mov" in (folder / "build/review/index.html").read_text("utf-8")
    project = folder / "project.yaml"
    project.write_text(
        project.read_text("utf-8").replace("say: A take that counts", "say: It counts"), "utf-8"
    )
    assert run(["build", str(folder), "--workers", "1"]) == 0
    assert overlay.is_file() and "overlays/take.mov shows an earlier version" in capsys.readouterr().out
    assert run(["overlays", str(folder), "take", "--moving", "rle"]) == 0
    assert "overlays/take.mov shows" not in capsys.readouterr().out
    assert run(["overlays", str(folder), "--moving", "tape"]) == 2

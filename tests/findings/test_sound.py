"""Flaws of sound files as sentences that one can pass on to who made them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from studio.build import open_project
from studio.findings.sound import level_findings, source_findings
from studio.sound.condition import Condition
from studio.sound.loudness import Levels, Loudness, Quiet
from studio.timeline.plan import Plan
from tests.click_episode import write_episode

RIGHT = Condition(-3.0, -2.8, (), 0.0001)


def said(**flaws: object) -> list[str]:
    return list(source_findings({"/songs/drums.flac": Condition(**{**vars(RIGHT), **flaws})}))  # type: ignore[arg-type]


def test_a_file_without_flaws_is_not_spoken_of() -> None:
    assert said() == []
    assert said(offset=None) == []
    assert said(offset=-0.0049) == []


@pytest.mark.parametrize(
    ("clipped", "where"),
    [((43.21,), "at 0:43.21"), ((43.21, 50.0), "at 0:43.21 and one more place"),
     ((65.0, 66.0, 67.0, 68.0), "at 1:05 and 3 more places")],
)  # fmt: skip
def test_clipping_is_told_with_its_place(clipped: tuple[float, ...], where: str) -> None:
    assert said(clipped=clipped) == [f"/songs/drums.flac is clipped {where}; ask for a mix with headroom."]


def test_an_offset_is_told_with_its_size() -> None:
    (sentence,) = said(offset=-0.0213)
    assert sentence.startswith("/songs/drums.flac has a DC offset of 0.021 of full scale")


HEARD = Loudness(-17.26, -16.0, 3.0, -1.0)
HELD = Levels(HEARD, 3.0, HEARD, True, 6.01)
FREE = replace(HELD, held_by_peak=False)


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Plan:
    return open_project(write_episode(tmp_path_factory.mktemp("findings") / "clicks")).plan


def test_peaks_that_hold_a_sound_are_told_of_clips_excerpts_and_the_rough_cut(plan: Plan) -> None:
    rest = (
        " at -17.3 LUFS, under the target of -14 LUFS, with 6 dB of gain reduction on them already; softer hits or a "
        "lower target would help."
    )
    assert list(level_findings(plan, {"chart": HELD})) == [f"chart: its peaks hold it{rest}"]
    assert list(level_findings(plan, None, {"chart": HELD})) == [
        f"chart: the peaks of its excerpt hold it{rest}"
    ]
    assert list(level_findings(plan, {"chart": HELD}, {"chart": HELD})) == [f"chart: its peaks hold it{rest}"]
    assert list(level_findings(plan, whole=HELD)) == [f"The rough cut: its peaks hold it{rest}"]
    assert list(level_findings(plan, {"chart": FREE}, {"chart": FREE}, FREE)) == []


def test_a_camera_that_was_left_quiet_is_told(plan: Plan) -> None:
    (room,) = level_findings(plan, {"take": replace(FREE, quiet_camera=Quiet(-59.9, 0.0))})
    assert room.startswith("take: nothing stands out in the camera's own sound, which is at -60 LUFS;")
    (far,) = level_findings(plan, {"take": replace(FREE, quiet_camera=Quiet(-52.2, 20.0))})
    assert far.startswith(
        "take: the camera's own sound is at -52 LUFS, and is brought up by 20 dB and no more,"
    )


@pytest.mark.parametrize(("peak", "soft"), [(None, True), (-74.0, True), (-3.0, False)])
def test_an_excerpt_without_loudness_is_told_of_unless_it_is_only_short(
    plan: Plan, peak: float | None, soft: bool
) -> None:
    nothing = Loudness(None, None, None, peak)
    found = list(level_findings(plan, None, {"chart": Levels(nothing, 0.0, nothing, False, 0.0)}))
    assert bool(found) == soft and all("too soft" in sentence for sentence in found)

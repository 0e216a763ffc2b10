"""Callouts of a clip: in their slots, off the presenter, with the room that they are told, moving in time."""

from __future__ import annotations

from pathlib import Path

import pytest

from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import default_theme
from studio.project.complaints import ProjectError
from studio.project.loader import load
from studio.timeline.plan import Plan
from studio.timeline.planning import plan_episode

from .sign import KINDS, SignOptions


def plan(folder: Path, callouts: str, segment: str = "", canvas: str = "1920x1080 @ 30") -> Plan:
    file = folder / "project.yaml"
    file.write_text(
        f"""episode: {{title: Signs, canvas: {canvas}}}
song:
  title: Signs
  by: Nobody
  tempo: 120
  chords: {{1-8: "| C | F | G | C | C | F | G | C |"}}
segments:
  - id: one
    script: {"word " * 30}
    {segment}
    callouts: [{callouts}]
""",
        "utf-8",
    )
    project = load(file, {"sign": SignOptions})
    return plan_episode(project, KINDS, stage_of(default_theme()))


def complaints(folder: Path, callouts: str, segment: str = "") -> list[str]:
    with pytest.raises(ProjectError) as error:
        plan(folder, callouts, segment)
    return [complaint.sentence for complaint in error.value.complaints]


def test_a_kind_stands_where_it_likes_best_unless_the_project_says_otherwise(tmp_path: Path) -> None:
    own, told = (
        plan(tmp_path, "{kind: sign, where: 1-2}, {kind: sign, where: 1-2, slot: right}").segments[0].callouts
    )
    assert own.layer.box.right < 960 < told.layer.box.x


def test_on_a_tall_picture_it_does_not_stand_beside_the_presenter(tmp_path: Path) -> None:
    (callout,) = plan(tmp_path, "{kind: sign, where: 1-2}", canvas="1080x1920 @ 30").segments[0].callouts
    assert callout.layer.box.width > 800


def test_callouts_keep_off_the_presenter(tmp_path: Path) -> None:
    (callout,) = (
        plan(tmp_path, "{kind: sign, where: 1-2, slot: lower}", "presenter: right").segments[0].callouts
    )
    assert callout.layer.box.right < 1920 * 0.7
    assert callout.layer.content.room.width == callout.layer.box.width


def test_a_slot_where_the_presenter_stands_is_a_complaint_at_the_slot(tmp_path: Path) -> None:
    (sentence,) = complaints(tmp_path, "{kind: sign, where: 1-2, slot: right}", "presenter: right")
    assert "presenter" in sentence and "other than 'right'" in sentence


def test_a_slot_that_the_kind_does_not_take_names_those_that_it_does(tmp_path: Path) -> None:
    (sentence,) = complaints(tmp_path, "{kind: sign, where: 1-2, slot: top}")
    assert "choose from left, right, lower, card" in sentence


def test_a_slot_that_there_is_not_is_a_complaint(tmp_path: Path) -> None:
    (sentence,) = complaints(tmp_path, "{kind: sign, where: 1-2, slot: lowr}")
    assert "lower" in sentence


def test_a_crowd_is_a_complaint_with_a_remedy(tmp_path: Path) -> None:
    crowd = ", ".join(["{kind: sign, where: 1-2, tall: 60, slot: lower}"] * 2)
    (sentence,) = complaints(tmp_path, crowd)
    assert "'when'" in sentence and "'slot'" in sentence


def test_its_mark_is_a_layer_of_its_own_over_it_and_has_a_place_in_the_still(tmp_path: Path) -> None:
    segment = plan(tmp_path, "{kind: sign, where: 1-2}").segments[0]
    (callout,) = segment.callouts
    (mark,) = callout.marks
    assert segment.layers[:2] == (callout.layer, mark)
    (box,) = callout.still_marks
    assert box is not None and box.x == callout.layer.box.x - 4
    assert not mark.states  # nothing of the song sounds in this clip


def test_letters_that_no_font_has_are_a_complaint_and_not_empty_boxes(tmp_path: Path) -> None:
    (sentence,) = complaints(tmp_path, "{kind: sign, where: 1-2}", "title: The 漢 chord")
    assert "漢" in sentence and "fonts" in sentence

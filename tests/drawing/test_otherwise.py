"""Where a pass is played otherwise, a picture shows what sounds, or nothing: never what is written as if it sounded."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from studio.drawing.chart.lane import Sounding
from studio.drawing.kinds import KINDS
from studio.drawing.themes.stage import stage_of
from studio.drawing.themes.theme import default_theme
from studio.project.loader import load
from studio.timeline.plan import CalloutPlan
from studio.timeline.planning import plan_episode

THEME = default_theme()
# A cadence with a borrowed subdominant; two voices make a part of chords out of the same bars.
TUNE = "X:1\nL:1/4\nM:4/4\nK:C\nG4|A4|c4|e4|]\n"
KEYS = "X:1\nL:1/4\nM:4/4\nK:C\n[CEG]4|[FA]4|[F_Ac]4|[CEG]4|]\n"
WRITTEN, CHANGED = 150, 150 + 240
"""Frames in bar 3, whose chord is changed, in the first and in the second pass: four bars at 120 take 240 frames."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("song")
    (made / "tune.abc").write_text(TUNE, "utf-8")
    (made / "keys.abc").write_text(KEYS, "utf-8")
    return made


def planned(folder: Path, callout: str, play: str = "chords", instead: str = "{3: F}") -> CalloutPlan:
    file = folder / "project.yaml"
    file.write_text(
        f"""episode: {{title: With and without, canvas: 1920x1080 @ 30}}
song:
  title: Three Grey Umbrellas
  by: The Paper Kites of Ostrow
  tempo: 120
  key: C major
  chords: {{1-4: "| C | F | Fm | C |"}}
  parts: {{tune: tune.abc, keys: keys.abc}}
segments:
  - id: one
    script: {"word " * 30}
    excerpt: {{where: 1-4, play: {play}, instead: {instead}, at: 0}}
    callouts: [{callout}]
""",
        "utf-8",
    )
    project = load(file, {name: kind.Options for name, kind in KINDS.items()})
    (plan,) = plan_episode(project, KINDS, stage_of(THEME)).segments[0].callouts
    return plan


def look(plan: CalloutPlan, frame: int) -> Any:
    return next(state.look for state in plan.layer.states if state.start <= frame < state.end)


def drawn(plan: CalloutPlan, shown: Any) -> np.ndarray[Any, Any]:
    size = (plan.layer.box.width, plan.layer.box.height)
    return np.asarray(KINDS[plan.layer.kind].draw(plan.layer.content, shown, size, THEME)).astype(int)


def test_a_chart_shows_the_chord_that_sounds_and_what_it_stands_for(folder: Path) -> None:
    plan = planned(folder, "chords")
    written, changed = look(plan, WRITTEN), look(plan, CHANGED)
    assert written == Sounding(2, 2) and changed.now == 2
    cell = plan.layer.content.cells[2]
    other = cell.instead[changed.instead]
    # F is IV of C major, F minor its iv: any table of diatonic and borrowed chords.
    assert (cell.symbol.text, cell.numeral.text, cell.origin) == ("Fm", "iv", "borrowed")
    assert (other.symbol.text, other.numeral.text, other.origin) == ("F", "IV", "")
    assert other.notes[0] == "instead of Fm" and not any("borrowed" in note for note in other.notes)
    assert plan.alt.endswith("F sounds instead of Fm (bar 3).")


def test_in_all_other_bars_both_passes_look_alike(folder: Path) -> None:
    plan = planned(folder, "chords")
    for bar in (0, 1, 3):
        one, two = (look(plan, bar * 60 + 30 + more) for more in (0, 240))
        assert (one.now, one.bar, one.instead) == (two.now, two.bar, two.instead)
    lit, other = drawn(plan, look(plan, WRITTEN)), drawn(plan, look(plan, CHANGED))
    left = np.flatnonzero((lit != other).any(axis=(0, 2)))
    bar = lit.shape[1] / 4
    assert 2 * bar < left.min() + 24 and left.max() < 3 * bar + 24  # the cells themselves: all else stays


@pytest.mark.parametrize("width", [1728, 1000, 760])
def test_it_is_said_in_words_at_every_width(folder: Path, width: int) -> None:
    plan = planned(folder, "chords")
    content, shown = plan.layer.content, look(plan, CHANGED)
    cell = content.cells[2]
    mute = replace(cell, instead=(replace(cell.instead[0], notes=()),))
    wordless = replace(content, cells=(*content.cells[:2], mute, content.cells[3]))
    one, two = (
        np.asarray(KINDS["chords"].draw(each, shown, (width, 600), THEME)).astype(int)[..., :3]
        for each in (content, wordless)
    )
    accent = [(np.abs(each - THEME.colours.now).max(-1) < 8).sum() for each in (one, two)]
    assert accent[0] > accent[1] + 100


def test_a_rest_leaves_a_chart_with_no_chord(folder: Path) -> None:
    plan = planned(folder, "chords", instead="{3: rest}")
    other = plan.layer.content.cells[2].instead[0]
    assert other.symbol.text == "N.C." and other.numeral is None and other.notes[0] == "nothing instead of Fm"
    assert "nothing sounds instead of Fm" in plan.alt


def test_numerals_that_are_not_asked_for_do_not_come_with_a_change(folder: Path) -> None:
    plan = planned(folder, "{kind: chords, numerals: no}")
    assert plan.layer.content.cells[2].instead[0].numeral is None


def test_a_keyboard_holds_the_keys_that_sound_and_names_their_chord(folder: Path) -> None:
    plan = planned(folder, "keyboard")
    written, changed = look(plan, WRITTEN), look(plan, CHANGED)
    assert {key.midi % 12 for key in written.keys} == {5, 8, 0}
    assert {key.midi % 12 for key in changed.keys} == {5, 9, 0}
    assert {key.name for key in changed.keys} == {"F", "A", "C"} and {key.hand for key in changed.keys} == {
        1,
        2,
    }
    assert (changed.chord.text, changed.instead.text) == ("F", "Fm") and written.instead is None


def test_a_keyboard_of_the_part_that_is_changed_holds_the_keys_that_sound(folder: Path) -> None:
    plan = planned(folder, "{kind: keyboard, part: keys}", play="keys")
    assert {key.name for key in look(plan, WRITTEN).keys} == {"F", "A♭", "C"}
    assert {key.name for key in look(plan, CHANGED).keys} == {"F", "A", "C"}


def test_a_chart_over_a_part_whose_chord_is_changed_says_so_too(folder: Path) -> None:
    plan = planned(folder, "chords", play="keys")
    assert look(plan, CHANGED).instead == 0


@pytest.mark.parametrize(
    "callout",
    ["chords", "keyboard", "{kind: keyboard, part: keys}", "{kind: staff, part: keys, labels: none}"],
)
def test_another_note_of_the_tune_leaves_other_pictures_as_they_are(folder: Path, callout: str) -> None:
    plan = planned(folder, callout, play="tune", instead="{3.1: D5}")
    assert look(plan, CHANGED) == look(plan, WRITTEN) and "instead" not in plan.alt


def test_a_staff_lights_of_a_changed_chord_what_sounds_as_it_is_written(folder: Path) -> None:
    plan = planned(folder, "{kind: staff, part: keys, labels: none}", play="keys")
    written, changed = look(plan, WRITTEN), look(plan, CHANGED)
    assert len(written.lit) == 3 and len(changed.lit) == 2 and set(changed.lit) < set(written.lit)


@pytest.mark.parametrize("callout", ["{kind: staff, part: tune}", "{kind: degrees, part: tune}"])
@pytest.mark.parametrize(("play", "instead"), [("tune", "{3.1: D5}"), ("chords", "{3: F}")])
def test_a_tune_is_not_lit_where_it_or_its_chord_is_another(
    folder: Path, callout: str, play: str, instead: str
) -> None:
    plan = planned(folder, callout, play, instead)
    quiet = KINDS[plan.layer.kind].quiet(look(plan, WRITTEN), None)
    assert look(plan, CHANGED) == quiet != look(plan, WRITTEN)
    assert "instead of" in plan.alt


def test_a_staff_without_degrees_does_not_mind_another_chord(folder: Path) -> None:
    plan = planned(folder, "{kind: staff, part: tune, labels: intervals}")
    assert look(plan, CHANGED) == look(plan, WRITTEN) and "instead" not in plan.alt


@pytest.mark.parametrize("callout", ["leading", "fretboard"])
def test_what_cannot_show_another_chord_claims_none(folder: Path, callout: str) -> None:
    plan = planned(folder, callout)
    assert look(plan, WRITTEN).now == 2 and look(plan, CHANGED).now is None
    assert plan.alt.endswith("F sounds instead of Fm (bar 3).")


def test_a_progression_claims_at_no_time_what_sounds(folder: Path) -> None:
    assert {state.look for state in planned(folder, "progression").layer.states} == {None}


def test_a_callout_of_the_changed_pass_has_the_change_for_its_still(folder: Path) -> None:
    assert planned(folder, "{kind: chords, pass: 2}").still.instead == 0
    first = planned(folder, "{kind: chords, pass: 1}")
    assert first.still.instead is None and "instead" not in first.alt
    assert all(not cell.instead for cell in first.layer.content.cells)

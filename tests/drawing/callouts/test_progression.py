from __future__ import annotations

from dataclasses import replace

import pytest

from studio.drawing.callouts.progression import _Setting as Setting
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme

from ..small_song import RefusedError, bars, composed


def test_the_loop_is_shown_once_with_how_often_it_is_heard() -> None:
    content = composed("progression", bars(1, 8)).content
    assert [step.symbol.text for step in content.steps] == ["A", "C♯7", "F♯m", "D", "Dm", "E/G♯", "E7sus4"]
    assert content.times == 2 and content.key == "in A major"


def test_without_repeats_all_of_it_is_shown_once() -> None:
    made = composed("progression", bars(1, 2), title="The way in")
    assert made.content.times == 1 and len(made.content.steps) == 3
    assert made.alt == "Progression I–V7/vi–vi in A major (A–C♯7–F♯m)."


def test_a_long_loop_takes_more_rows_on_a_narrow_panel() -> None:
    content = composed("progression", bars(1, 8)).content
    longer = replace(content, steps=content.steps * 2)
    wide, narrow = Setting(longer, 1728, default_theme()), Setting(longer, 896, default_theme())
    assert wide.rows < narrow.rows
    assert narrow.factor >= 0.7
    assert KINDS["progression"].draw(longer, None, (896, 500), default_theme()).size == (896, 500)


def test_bars_without_chords_are_refused() -> None:
    with pytest.raises(RefusedError, match="no chords"):
        composed("progression", bars(20, 24))

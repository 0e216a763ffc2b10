from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.excerpt_picture.marks_along import bar_lines, clicks, seconds
from studio.drawing.excerpt_picture.setting import SIZE, Setting
from studio.drawing.excerpt_picture.shown import ExcerptShown
from studio.drawing.lettering.type import Line
from studio.drawing.themes.theme import default_theme

from .excerpts_shown import COUNTED_TWICE, CROWDED, WITHOUT, excerpt


def setting(shown: ExcerptShown) -> Setting:
    return Setting(shown, SIZE, default_theme())


def text(line: Line | None) -> str:
    return "".join(piece.text for piece in line.pieces) if line else ""


def numbers(shown: ExcerptShown) -> list[str]:
    return [text(line) for _, line in bar_lines(setting(shown)) if line]


def test_every_bar_line_stands_at_its_second() -> None:
    found = setting(COUNTED_TWICE)
    lines = [x for x, _ in bar_lines(found)]
    assert lines == [found.x(at) for _, at in COUNTED_TWICE.bars]
    assert numbers(COUNTED_TWICE) == ["bar 2", "3", "4", "5", "2", "3", "4", "5", "6"]


def test_where_bars_are_crowded_every_pass_still_begins_with_a_number() -> None:
    assert numbers(CROWDED)[:16] == ["101", "103"] * 8
    assert len(bar_lines(setting(CROWDED))) == len(CROWDED.bars)


def test_a_fence_of_bar_lines_is_thinned() -> None:
    shown = excerpt(each=600.0, bars=300, first_bar=1)
    lines = bar_lines(setting(shown))
    assert len(lines) < 60 and all(line for _, line in lines)
    assert numbers(shown)[1:3] == ["17", "33"]


def test_bars_before_the_first_have_no_numbers() -> None:
    shown = excerpt(first_bar=-1, bars=4)
    assert numbers(shown) == ["bar 1", "2"]


@pytest.mark.parametrize("length", [0.3, 1.0, 4.0, 16.4, 20.0, 90.0, 400.0, 1200.0])
def test_ticks_are_round_seconds_of_the_clip_and_every_one_has_its_number(length: float) -> None:
    found = setting(excerpt(start=3.7, each=length))
    ticks = seconds(found)
    assert 2 <= len(ticks) <= 24
    for tick in ticks:
        assert tick.x == pytest.approx(found.x(float(text(tick.line))), abs=0.01)


@given(st.floats(0, 500), st.floats(0.15, 900))
@pytest.mark.slow
def test_numbers_of_seconds_never_touch(start: float, length: float) -> None:
    found = setting(excerpt(start=start, each=length))
    ticks = seconds(found)
    for one, two in pairwise(ticks):
        assert one.left + one.line.width < two.left
    assert ticks[0].left >= 0 and ticks[-1].left + ticks[-1].line.width <= SIZE[0]


def test_clicks_stand_at_their_seconds_and_give_way_where_they_are_crowded() -> None:
    found = setting(WITHOUT)
    assert [x for x, _ in clicks(found)] == [found.x(at) for at, _ in WITHOUT.clicks]
    many = clicks(setting(excerpt(each=60.0, beat=0.25, clicking=True)))
    assert 0 < len(many) < 240 and all(strong for _, strong in many)
    assert clicks(setting(excerpt(each=400.0, beat=0.25, clicking=True))) == ()

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest

from studio.drawing.draw import draw
from studio.drawing.frame import CanvasSize
from studio.drawing.furniture.title import _set
from studio.drawing.themes.theme import SMALLEST, default_theme
from studio.project.episode_values import Canvas
from studio.timeline.furniture import Backdrop, Slate
from studio.timeline.layout import burnt_boxes, callout_area

THEME = replace(default_theme(), fonts=("heebo",))
LONG = (
    "Why the bridge of this song feels like daylight after all that rain, and what the bass has to do with it"
)
CANVASES = [
    Canvas(w, h, Fraction(30), "") for w, h in ((1920, 1080), (1080, 1920), (1080, 1080), (1280, 720))
]


def ink(canvas: Canvas, title: str, line: str) -> tuple[np.ndarray, np.ndarray]:
    """The columns and the rows of a ground in which something is written."""
    picture = draw("backdrop", Backdrop(title, line), None, (canvas.width, canvas.height), THEME)
    marked = (np.asarray(picture)[..., :3] != THEME.colours.ground).any(2)
    return np.flatnonzero(marked.any(0)), np.flatnonzero(marked.any(1))


@pytest.mark.parametrize("canvas", CANVASES)
@pytest.mark.parametrize("title", ["One note", LONG, f"{LONG}; {LONG}", "צליל אחד", ""])
def test_a_title_stands_between_what_is_burnt_in_and_the_callouts(canvas: Canvas, title: str) -> None:
    columns, rows = ink(canvas, title, "Bench by the Canal · The Paper Kites of Ostrow")
    assert burnt_boxes(canvas)[0].bottom <= rows.min() and rows.max() <= callout_area(canvas).y
    assert canvas.width * 0.05 - 2 <= columns.min() and columns.max() <= callout_area(canvas).right + 2


def test_a_title_that_reads_from_the_right_stands_at_the_right() -> None:
    columns, _ = ink(CANVASES[0], "צליל אחד", "")
    assert columns.max() > 1920 * 0.95 - 6 and columns.min() > 960


def test_a_longer_title_is_smaller() -> None:
    canvas = CanvasSize(1920, 1080)
    short, long, longest = (_set(title, "A song", canvas, THEME) for title in ("The bridge", LONG, LONG * 2))
    assert short.size == THEME.sizes.title > long.size > longest.size >= SMALLEST
    assert len(short.lines) == len(long.lines) == 1 and len(longest.lines) == 2


@pytest.mark.parametrize("canvas", CANVASES)
def test_a_script_stands_under_its_title_and_over_the_strip(canvas: Canvas) -> None:
    page = "Listen to the keyboard alone. Under it sits a loop of four chords. " * 9
    size = (canvas.width, canvas.height)
    with_page, without = (
        np.asarray(draw("slate", Slate(LONG, (page,), "14 s to read aloud"), look, size, THEME))
        for look in (0, -1)
    )
    rows = np.flatnonzero((with_page != without).any((1, 2)))
    assert rows.min() > callout_area(canvas).y - 16
    assert rows.max() <= canvas.height * (0.8 if canvas.height > canvas.width else 0.93)


def test_a_script_that_no_page_can_hold_says_that_it_goes_on() -> None:
    page = "Listen to the keyboard alone. " * 120
    size = (1080, 1080)
    for script in (page, page * 2):
        picture = np.asarray(draw("slate", Slate("Too much", (script,), ""), 0, size, THEME))
        rows = np.flatnonzero((picture[..., :3] != THEME.colours.ground).any((1, 2)))
        assert rows.max() <= 1080 * 0.93


def test_paragraphs_stand_at_the_side_where_each_begins() -> None:
    slate = Slate("", ("Listen.\n\nהקשיבו.",), "")
    picture = np.asarray(draw("slate", slate, 0, (1920, 1080), THEME))
    marked = (picture[..., :3] != THEME.colours.ground).any(2)
    assert marked[:, :400].any() and marked[:, 1500:].any()
    assert not marked[:, 500:1400].any()

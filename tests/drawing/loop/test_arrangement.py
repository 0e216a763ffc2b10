from __future__ import annotations

import numpy as np
import pytest

from studio.drawing.callouts.progression import KIND
from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.symbols import NumeralWords as N
from studio.drawing.lettering.symbols import SymbolWords as S
from studio.drawing.loop.arrangement import Progression, Step, arranged, lowest
from studio.drawing.themes.theme import SMALLEST, default_theme

THEME = default_theme()
WIDE = CanvasSize(1920, 1080)
STEPS = (
    Step(N("I"), S("C")),
    Step(N("V", raised="7", of="vi"), S("E", "", "7")),
    Step(N("vi"), S("A", "m")),
    Step(N("iv"), S("F", "m"), differs=True),
)


def loop(steps: tuple[Step, ...] = STEPS, plain: str = "I–V–vi–IV, with iv in place of IV") -> Progression:
    return Progression(WIDE, "The verse", "in C major", 2, steps, plain)


def smallest_type(content: Progression, width: float) -> float:
    found = lowest(content, width, THEME)
    return min(line.smallest for pair in found.pairs for line in pair)


def test_a_long_loop_takes_more_rows_on_a_narrow_panel() -> None:
    longer = loop(STEPS * 4)
    wide, narrow = (arranged(longer, width, THEME) for width in (1728, 896))
    assert wide.rows < narrow.rows and wide.fits and narrow.fits


def test_four_chords_stand_two_by_two_where_four_in_a_row_would_be_small() -> None:
    wordy = (Step(N("V", raised="7", of="vi"), S("E", "", "7sus4", "B")), *STEPS[:1]) * 2
    found = arranged(loop(wordy), 560, THEME)
    assert (found.rows, found.across) == (2, 2) and found.scale >= 0.6


@pytest.mark.parametrize("width", [1728, 896, 560])
@pytest.mark.parametrize("count", [2, 4, 12])
def test_nothing_is_smaller_than_a_phone_shows_in_the_least_height(width: int, count: int) -> None:
    content = loop((STEPS * 3)[:count])
    extent = KIND.extent(content, width, THEME)
    assert extent.least <= extent.wanted
    found = lowest(content, width, THEME)
    assert found.word_size >= SMALLEST and smallest_type(content, width) >= SMALLEST - 1e-6
    assert found.tall <= extent.least * WIDE.unit


@pytest.mark.parametrize("share", [0.0, 0.5, 1.0, 1.5])
def test_it_is_drawn_within_every_height_that_the_layout_may_give(share: float) -> None:
    content = loop()
    extent = KIND.extent(content, 900, THEME)
    units = extent.least + share * (extent.wanted - extent.least)
    picture = KIND.draw(content, None, (900, round(units * 8)), THEME)
    light = np.asarray(picture.convert("L")) > 120
    rows = np.flatnonzero(light.any(1))
    assert picture.size == (900, round(units * 8))
    assert rows.min() >= 8 and rows.max() < picture.height - 8


def test_a_chord_that_differs_has_a_bracket_under_it_in_the_colour_of_what_is_compared() -> None:
    def coloured(content: Progression) -> int:
        pixels = np.asarray(KIND.draw(content, None, (1728, 320), THEME))[..., :3]
        return int((pixels == THEME.colours.next).all(2).sum())

    plain = tuple(Step(step.numeral, step.symbol) for step in STEPS)
    assert coloured(loop()) > 400 and coloured(loop(plain)) == 0
    # The bracket is a shape: without its colour there is still a level line under the chord.
    pixels = np.asarray(KIND.draw(loop(), None, (1728, 320), THEME))[..., :3]
    rows = (pixels == THEME.colours.next).all(2).sum(1)
    assert rows.max() > 60


def test_words_that_do_not_fit_one_line_stand_in_several() -> None:
    narrow = arranged(Progression(WIDE, "A title that is long", "in C major", 2, STEPS[:2]), 330, THEME)
    assert [title for title, _, _ in narrow.head if title] != [] and len(narrow.head) > 2
    assert len(arranged(loop(), 1728, THEME).head) == 1

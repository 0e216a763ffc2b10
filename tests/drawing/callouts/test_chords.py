from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest

from studio.drawing.chart.chart import ChartBar, ChartCell, arrange, cell_lines, smallest_factor
from studio.drawing.chart.lane import Sounding
from studio.drawing.frame import PADDING
from studio.drawing.kinds import KINDS
from studio.drawing.lettering.symbols import FIGURES, RAISED, SymbolWords
from studio.drawing.themes.theme import SMALLEST, default_theme

from ..samples import TALL, WIDE, bars, chords
from ..small_song import RefusedError, composed
from ..small_song import bars as song_bars

THEME = default_theme()
KIND = KINDS["chords"]


def near(picture: object, colour: tuple[int, int, int]) -> np.ndarray:
    pixels = np.asarray(picture).astype(int)
    return np.asarray((np.abs(pixels[..., :3] - colour).max(-1) < 10) & (pixels[..., 3] > 230))


def test_the_bracket_stands_over_the_chord_that_sounds() -> None:
    content, size = chords(WIDE), (1728, 216)
    for cell, (begin, end) in ((0, (0, 1)), (2, (1.5, 2)), (6, (3.5, 4))):
        picture = KIND.draw(content, Sounding(cell), size, THEME)
        columns = np.flatnonzero(near(picture, THEME.colours.now)[: 5 * 8].any(0))
        left = PADDING * 8
        bar = (1728 - 2 * left) / 4
        assert left + begin * bar < columns.min() < left + begin * bar + 16
        assert left + end * bar - 16 < columns.max() < left + end * bar


def test_nothing_is_marked_while_nothing_sounds() -> None:
    picture = KIND.draw(chords(WIDE), Sounding(), (1728, 216), THEME)
    assert not near(picture, THEME.colours.now).any() and not near(picture, THEME.colours.next).any()


def test_what_comes_next_has_the_cool_accent_to_the_right_of_now() -> None:
    picture = KIND.draw(chords(WIDE), Sounding(1), (1728, 216), THEME)
    now = np.flatnonzero(near(picture, THEME.colours.now)[:40].any(0))
    following = np.flatnonzero(near(picture, THEME.colours.next).any(0))
    assert following.size and following.min() > now.max()


def test_four_bars_stand_in_a_row_and_rows_are_even() -> None:
    wide = arrange(bars(8), chords(WIDE, long=True).cells, 1728, WIDE, THEME)
    assert [len(row.bars) for row in wide.rows] == [4, 4]
    plain_cells = tuple(ChartCell(n, n + 1, SymbolWords("A")) for n in range(6))
    assert [len(row.bars) for row in arrange(bars(6), plain_cells, 1728, WIDE, THEME).rows] == [3, 3]


def test_a_tall_canvas_has_fewer_bars_in_a_row() -> None:
    tall = arrange(bars(8), chords(TALL, long=True).cells, TALL.lane, TALL, THEME)
    assert {len(row.bars) for row in tall.rows} == {2}


@pytest.mark.parametrize("canvas", [WIDE, TALL])
def test_no_piece_of_type_is_smaller_than_a_phone_shows(canvas: object) -> None:
    content = chords(canvas, long=True)  # type: ignore[arg-type]
    found = arrange(content.bars, content.cells, content.canvas.lane, content.canvas, THEME)
    lines = [line for cell in content.cells for line in cell_lines(cell, content.canvas, THEME, found.factor)]
    assert min(line.smallest for line in lines if line.pieces) >= SMALLEST - 0.01


def test_the_row_that_sounds_is_shown_when_not_all_rows_fit() -> None:
    content = chords(WIDE, long=True)
    first = KIND.draw(content, Sounding(1), (1728, 216), THEME)
    second = KIND.draw(content, Sounding(9), (1728, 216), THEME)
    assert near(first, THEME.colours.now).any() and near(second, THEME.colours.now).any()
    assert first.tobytes() != second.tobytes()


def test_composed_cells_have_the_chart_s_places_and_the_states_the_song_s() -> None:
    made = composed("chords", song_bars(1, 4))
    assert [(cell.begin, cell.end) for cell in made.content.cells][:4] == [
        (0, 1),
        (1, 1.5),
        (1.5, 2),
        (2, 2.5),
    ]
    assert made.states[1] == (Fraction(4), Fraction(6), Sounding(1))
    assert made.content.bars == tuple(ChartBar(n) for n in (1, 2, 3, 4))


def test_an_applied_chord_that_resolves_aims_at_its_target_and_a_borrowed_one_says_so() -> None:
    cells = composed("chords", song_bars(1, 4)).content.cells
    assert cells[1].numeral.of == "vi" and cells[1].aims and not cells[1].notes
    assert cells[4].symbol.text == "Dm" and any("borrowed" in note for note in cells[4].notes)
    assert any("A major" in note for note in cells[0].notes)


def test_a_bar_of_two_is_half_as_wide() -> None:
    content = replace(chords(WIDE), cells=(*chords(WIDE).cells[:5], ChartCell(3, 4, SymbolWords("E"))))
    short = replace(content, bars=(*content.bars[:3], ChartBar(8, 0.5)))
    whole = near(KIND.draw(content, Sounding(5), (1728, 216), THEME), THEME.colours.now)[:40].any(0).sum()
    half = near(KIND.draw(short, Sounding(5), (1728, 216), THEME), THEME.colours.now)[:40].any(0).sum()
    assert half == pytest.approx(whole / 2, abs=8)


def test_too_much_is_refused_where_it_is_written() -> None:
    with pytest.raises(RefusedError, match="where"):
        composed("chords", song_bars(40, 44))


def test_the_smallest_factor_keeps_every_part_readable() -> None:
    assert THEME.sizes.symbol * smallest_factor(THEME) * min(RAISED, FIGURES) == pytest.approx(SMALLEST)


def test_the_words_say_what_the_picture_shows() -> None:
    alt = composed("chords", song_bars(1, 2)).alt
    assert "A major" in alt and "C♯7 (V7/vi)" in alt and "F♯m (vi)" in alt

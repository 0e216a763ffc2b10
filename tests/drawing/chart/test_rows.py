"""How charts break into rows. That bar lines stand in line, and that bars of one row are alike where they can be, is
common practice of printed charts."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.drawing.callouts.chords import KIND
from studio.drawing.chart.chart import ChartBar, ChartCell, cell_lines, smallest_factor
from studio.drawing.chart.rows import arrange
from studio.drawing.frame import PADDING
from studio.drawing.lettering.symbols import NumeralWords, SymbolWords
from studio.drawing.themes.theme import default_theme
from studio.music.chart import Chart, read_bars
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.timeline.song_facts import SongFacts

from ..samples import TALL, WIDE, bars, chords
from ..small_song import ask, facts

THEME = default_theme()
NAMES = (
    SymbolWords("A"),
    SymbolWords("F♯", "m", "7"),
    SymbolWords("B♭", "maj", "7♯11"),
    SymbolWords("E", bass="G♯"),
)


@st.composite
def charts(draw: st.DrawFn) -> tuple[tuple[ChartBar, ...], tuple[ChartCell, ...]]:
    """Bars of one to four chords each, with a pickup before some."""
    counts = draw(st.lists(st.integers(1, 4), min_size=1, max_size=10))
    pickup = draw(st.booleans())
    numbers = range(0 if pickup else 1, len(counts) + (0 if pickup else 1))
    made = tuple(ChartBar(number, pickup=pickup and place == 0) for place, number in enumerate(numbers))
    cells = tuple(
        ChartCell(
            bar + n / count,
            bar + (n + 1) / count,
            draw(st.sampled_from(NAMES)),
            NumeralWords("ii", raised="7"),
        )
        for bar, count in enumerate(counts)
        for n in range(count)
    )
    return made, cells


@given(charts(), st.sampled_from([600.0, 896.0, 1146.0, 1728.0]))
@settings(deadline=None)
def test_bar_lines_of_all_rows_stand_in_line_and_every_chord_is_there_once(
    chart: tuple[tuple[ChartBar, ...], tuple[ChartCell, ...]], width: float
) -> None:
    made, cells = chart
    found = arrange(made, cells, width, WIDE, THEME)
    assert [bar for row in found.rows for bar in row.bars] == list(range(len(made)))
    assert [piece.cell for row in found.rows for piece in row.pieces] == list(range(len(cells)))
    lines = [
        row.edges[1:] if made[row.bars.start].pickup and len(made) > 1 else row.edges for row in found.rows
    ]
    for row in lines[1:]:
        assert row == pytest.approx(lines[0][: len(row)])


@given(charts(), st.sampled_from([896.0, 1146.0, 1728.0]))
@settings(deadline=None)
def test_no_chord_reaches_into_the_next(
    chart: tuple[tuple[ChartBar, ...], tuple[ChartCell, ...]], width: float
) -> None:
    made, cells = chart
    found = arrange(made, cells, width, WIDE, THEME)
    if found.factor < smallest_factor(THEME):
        return  # refused where it is composed
    for row in found.rows:
        assert row.edges[-1] <= width - PADDING * WIDE.unit + 0.01
        for piece in row.pieces:
            widest = max(line.width for line in cell_lines(cells[piece.cell], WIDE, THEME, found.factor))
            assert widest <= piece.right - piece.left
        for one, two in pairwise(row.pieces):
            assert one.right <= two.left + 0.01


def test_four_bars_stand_in_a_row_and_rows_are_even() -> None:
    wide = arrange(bars(8), chords(WIDE, long=True).cells, 1728, WIDE, THEME)
    assert [len(row.bars) for row in wide.rows] == [4, 4]
    plain_cells = tuple(ChartCell(n, n + 1, SymbolWords("A")) for n in range(6))
    assert [len(row.bars) for row in arrange(bars(6), plain_cells, 1728, WIDE, THEME).rows] == [3, 3]


def test_one_crowded_bar_does_not_break_an_easy_row() -> None:
    crowded = tuple(ChartCell(n / 4, (n + 1) / 4, SymbolWords("F♯", "m")) for n in range(4))
    easy = tuple(ChartCell(n, n + 1, SymbolWords("A")) for n in (1, 2, 3))
    found = arrange(bars(4), crowded + easy, 1146, WIDE, THEME)
    assert [len(row.bars) for row in found.rows] == [4]
    widths = [two - one for one, two in pairwise(found.rows[0].edges)]
    assert widths[0] > widths[1] == pytest.approx(widths[2]) == pytest.approx(widths[3])


def test_bars_are_alike_where_there_is_room() -> None:
    cells = tuple(ChartCell(n, n + 1, SymbolWords("A")) for n in range(4))
    edges = arrange(bars(4), cells, 1728, WIDE, THEME).rows[0].edges
    assert [two - one for one, two in pairwise(edges)] == pytest.approx([edges[1] - edges[0]] * 4)


@pytest.mark.parametrize(("width", "most"), [(566, 2), (896, 4)])
def test_a_narrow_panel_has_fewer_bars_in_a_row(width: int, most: int) -> None:
    two_each = tuple(ChartCell(n / 2, (n + 1) / 2, SymbolWords("F♯", "m", "7")) for n in range(16))
    found = arrange(bars(8), two_each, width, TALL, THEME)
    assert {len(row.bars) for row in found.rows} <= set(range(1, most + 1))
    assert found.factor >= smallest_factor(THEME)


def test_a_held_chord_s_symbol_stands_once_in_a_row() -> None:
    cells = (ChartCell(0, 6, SymbolWords("A")), ChartCell(6, 8, SymbolWords("D")))
    found = arrange(bars(8), cells, 1728, WIDE, THEME)
    assert [[piece.bar for piece in row.pieces if piece.shown] for row in found.rows] == [[0], [4, 6]]
    assert found.rows[1].across(0) == (found.rows[1].pieces[0].left, found.rows[1].pieces[1].right)


def test_a_pickup_hangs_before_the_first_bar_line_and_a_new_meter_is_written() -> None:
    time = SongTime(
        ((1, Meter(4, 4)), (3, Meter(2, 4)), (4, Meter(4, 4))),
        ((Fraction(0), Fraction(0)), (Fraction(4), Fraction(2))),
        Fraction(1),
    )
    chart = read_bars("| E7 |", 0, time) + read_bars("| A | D | D | E | A |", 1, time)
    song = replace(facts().song, time=time, chart=Chart(chart))
    asked = replace(ask(Span(Fraction(-1), time.bars(1, 5).end)), facts=SongFacts(song, "relative-to-major"))
    made = KIND.compose(KIND.Options(kind="chords"), asked)
    assert [(bar.number, bar.meter, bar.pickup) for bar in made.content.bars] == [
        (0, "", True), (1, "", False), (2, "", False), (3, "2/4", False), (4, "4/4", False), (5, "", False),
    ]  # fmt: skip
    rows = arrange(made.content.bars, made.content.cells, 1728, WIDE, THEME).rows
    assert len(rows) == 2 and rows[0].edges[1] == rows[1].edges[0] > rows[0].edges[0]
    silent = replace(song, chart=Chart(chart[1:]))
    asked = replace(asked, facts=SongFacts(silent, "relative-to-major"))
    made = KIND.compose(KIND.Options(kind="chords"), asked)
    assert made.content.bars[0] == ChartBar(1)

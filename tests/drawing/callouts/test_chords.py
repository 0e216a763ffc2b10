from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.chart.chart import ChartBar, ChartCell, Origin, cell_lines, smallest_factor
from studio.drawing.chart.lane import Chords, Lane, Sounding
from studio.drawing.chart.pages import paged
from studio.drawing.chart.rows import arrange
from studio.drawing.frame import PADDING
from studio.drawing.kinds import KINDS
from studio.drawing.lettering.symbols import FIGURES, RAISED, NumeralWords, SymbolWords
from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import SMALLEST, default_theme
from studio.music.chart import Chart, read_bars
from studio.music.key import Key
from studio.music.place import Span
from studio.project.episode_values import Canvas
from studio.timeline.kind import Composed
from studio.timeline.slots import SlotName
from studio.timeline.song_facts import SongFacts

from ..samples import TALL, WIDE, bars, chords
from ..small_song import TALL as SONG_TALL
from ..small_song import TIME, RefusedError, ask, composed, facts, room
from ..small_song import WIDE as SONG_WIDE
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
    assert made.states[1] == (Fraction(4), Fraction(6), Sounding(1, 1))
    assert made.content.bars == tuple(ChartBar(n) for n in (1, 2, 3, 4))


def test_an_applied_chord_that_resolves_aims_at_its_target_and_a_borrowed_one_says_so() -> None:
    cells = composed("chords", song_bars(1, 4)).content.cells
    assert cells[1].numeral.of == "vi" and cells[1].aims and not cells[1].notes
    assert cells[4].symbol.text == "Dm" and any("borrowed" in note for note in cells[4].notes)
    assert cells[0].key[0] == "in A major" and not cells[0].notes


def test_where_chords_come_from_is_told_by_shape_and_alt() -> None:
    made = composed("chords", song_bars(1, 4))
    assert [cell.origin for cell in made.content.cells] == ["", "applied", "", "", "borrowed", "", ""]
    assert "Dm (iv, borrowed from A minor)" in made.alt


@pytest.mark.parametrize("origin", ["applied", "borrowed", "pivot"])
def test_each_origin_leaves_a_mark_of_its_own_at_the_numeral(origin: Origin) -> None:
    cells = (ChartCell(0, 1, SymbolWords("A"), NumeralWords("I")),) * 2
    cells = (replace(cells[0], end=0.5), replace(cells[1], begin=0.5))
    plain = Chords(WIDE, (ChartBar(1),), cells)
    marked = replace(plain, cells=(replace(cells[0], origin=origin), cells[1]))
    pictures = [np.asarray(KIND.draw(one, Sounding(), (900, 216), THEME)) for one in (plain, marked)]
    changed = np.flatnonzero((pictures[0] != pictures[1]).any((0, 2)))
    assert changed.size and changed.max() < 450


def test_the_bar_that_sounds_decides_the_page_even_of_a_chord_that_is_held() -> None:
    """Twenty-four bars of one chord, eight of another: the bracket is never off the page."""
    cells = (ChartCell(0, 24, SymbolWords("A")), ChartCell(24, 32, SymbolWords("D")))
    content = Chords(WIDE, bars(32), cells)
    size = (1728, 216)
    pages = paged(content, *size, THEME)
    assert len(pages.pages) > 2
    for bar in range(32):
        picture = KIND.draw(content, Sounding(0 if bar < 24 else 1, bar), size, THEME)
        assert near(picture, THEME.colours.now).any()
        assert pages.found.row_of(bar) in pages.pages[pages.page(Sounding(0, bar), content)]


def test_a_stretch_without_chords_keeps_the_page() -> None:
    made = composed("chords", Span(Fraction(0), Fraction(40)))
    assert made.states[-1] == (Fraction(36), Fraction(40), Sounding(None, 9))


@given(st.integers(1, 12), st.integers(150, 700), st.sampled_from([360, 566, 896, 1146, 1728]))
def test_every_row_stands_on_one_page(count: int, height: int, width: int) -> None:
    cells = tuple(ChartCell(n, n + 1, SymbolWords("A"), NumeralWords("I")) for n in range(count))
    content = Chords(WIDE, bars(count), cells)
    pages = paged(content, width, height, THEME)
    assert [n for page in pages.pages for n in page] == list(range(len(pages.found.rows)))


@pytest.mark.parametrize("canvas", [SONG_WIDE, SONG_TALL])
@pytest.mark.parametrize("slot", ["lower", "left", "card", "top"])
@pytest.mark.slow
def test_the_least_height_shows_a_whole_row_inside_the_panel(canvas: Canvas, slot: SlotName) -> None:
    made = composed("chords", song_bars(1, 8), canvas, slot=slot, functions=True)
    width = room(canvas, slot).width
    least = round(KIND.extent(made.content, width, THEME).least * made.content.canvas.unit)
    for _, _, look in made.states:
        picture = KIND.draw(made.content, look, (width, least), THEME)
        ink = near(picture, THEME.colours.ink) | near(picture, THEME.colours.now)
        rows = np.flatnonzero(ink.any(1))
        assert rows.min() >= 8 and rows.max() <= least - 4


def test_functions_become_short_where_words_have_no_room_and_no_letter_that_could_be_a_chord() -> None:
    (cell,) = composed("chords", song_bars(1, 1), functions=True).content.cells
    assert cell.key == ("in A major", "in A maj", "A maj") and cell.notes == ("tonic", "ton.")
    assert cell.small_print(0)[0] == "in A major, tonic" and cell.small_print(9)[-1] == "A maj, ton."


def charted(chart: str, last: int, key: str = "F major", first: int = 1, **options: object) -> Composed:
    """The chords callout over a chart of its own; `key` may change: "C major, 2: D major"."""
    starts = [part.split(": ") for part in key.split(", ")]
    keys = tuple(
        (TIME.bar_start(int(part[0])) if len(part) > 1 else Fraction(0), Key.parse(part[-1]))
        for part in starts
    )
    song = replace(facts().song, chart=Chart(read_bars(chart, 1, TIME)), keys=keys, parts={})
    asked = replace(ask(song_bars(first, last)), facts=SongFacts(song, "relative-to-major"))
    return KIND.compose(KIND.Options(kind="chords", **options), asked)


@pytest.mark.parametrize(
    ("chart", "key", "place"),
    [
        # an applied dominant resolves to its target with a seventh, or in inversion (any harmony textbook)
        ("| F | D7 | Gm7 | C7 |", "F major", 1),
        ("| Eb | F7 | Bb7 | Eb |", "Eb major", 1),
        ("| C | A7b9 | Dm7 | G7 |", "C major", 1),
        ("| C | C7 | F/A | G7 |", "C major", 1),
        ("| C | Am7 . D7 . | G7 | C |", "C major", 2),
    ],
)
def test_an_applied_dominant_aims_at_its_target_whatever_that_carries(
    chart: str, key: str, place: int
) -> None:
    cell = charted(chart, 4, key).content.cells[place]
    assert cell.origin == "applied" and cell.aims and not cell.notes


def test_an_applied_dominant_that_does_not_resolve_says_so() -> None:
    cell = charted("| C | A7 | F | G7 |", 4, "C major").content.cells[1]
    assert cell.origin == "applied" and not cell.aims and cell.notes[0] == "V of ii, does not resolve"


def test_a_dominant_of_the_key_that_follows_is_told_as_such() -> None:
    """A7 before D major, as last chord of E♭ major: V of what follows, as every textbook on modulation has it."""
    chart = "| Ab | Bb | Eb | A7sus4 . A7 . | D | G | A | D |"
    whole = charted(chart, 8, "Eb major, 5: D major").content.cells
    assert {whole[n].notes[0] for n in (3, 4)} == {"V of D major, the next key"}
    ends_before = charted(chart, 4, "Eb major, 5: D major")
    assert ends_before.content.cells[-1].notes[0] == "V of D major, the next key"
    assert ends_before.alt.endswith(", V of D major, the next key).")


def test_blues_sevenths_are_told_once_and_remarks_are_as_short_as_one_another() -> None:
    blues = "| F7 | Bb7 | F7 | F7 | Bb7 | Bdim7 | F7 | D7 | Gm7 | C7 | F7 | C7 |"
    content = charted(blues, 12).content
    assert [cell.notes[0] for cell in content.cells if cell.notes][:2] == [
        "blues seventh",
        "common-tone diminished",
    ]
    assert sum("blues seventh" in cell.notes for cell in content.cells) == 1
    found = arrange(content.bars, content.cells, 566, content.canvas, THEME)
    lane = Lane(Sheet((566, 400)), content, found, Sounding(), THEME)
    printed = [(cell, row, piece) for row in found.rows for piece in row.pieces
               if piece.shown and (cell := content.cells[piece.cell]).notes]  # fmt: skip
    assert all(lane.note(cell.small_print(lane.level), row, piece) for cell, row, piece in printed)


def test_the_arrow_ends_before_the_bar_line() -> None:
    content = charted("| F | D7 | Gm7 | C7 |", 4).content
    size = (1728, 216)
    found = paged(content, *size, THEME).found
    picture = np.asarray(KIND.draw(content, Sounding(), size, THEME)).astype(int)
    line = round(found.rows[0].edges[2])
    rule = near(picture, THEME.colours.rule)[:, line - 1 : line + 2].any(1)
    beside = near(picture, THEME.colours.quiet)[:, line - 4 : line + 12]
    assert rule.any() and not beside[: int(np.flatnonzero(rule).max()) - 40].any()


def test_a_stretch_that_ends_within_a_bar_is_not_closed_by_a_line() -> None:
    made = composed("chords", Span(Fraction(0), Fraction(10)))
    assert [bar.open for bar in made.content.bars] == [False, False, True]
    later = composed("chords", Span(Fraction(1), Fraction(8)))
    assert not later.content.bars[0].pickup  # more than half of it sounds
    assert composed("chords", Span(Fraction(3), Fraction(8))).content.bars[0].pickup


def test_silence_is_no_missing_chart() -> None:
    with pytest.raises(RefusedError, match="no chord sounds in these bars"):
        charted("| N.C. | N.C. |", 2)


def test_the_alt_text_tells_what_is_drawn() -> None:
    plain = composed("chords", song_bars(1, 4), numerals=False).alt
    assert plain == "Chord chart: A, C♯7, F♯m, D, Dm, E/G♯, E7sus4."
    told = composed("chords", song_bars(1, 1), functions=True).alt
    assert told == "Chord chart in A major: A (I, tonic)."


def test_too_much_is_refused_where_it_is_written() -> None:
    with pytest.raises(RefusedError, match="where"):
        composed("chords", song_bars(40, 44))


def test_the_smallest_factor_keeps_every_part_readable() -> None:
    assert THEME.sizes.symbol * smallest_factor(THEME) * min(RAISED, FIGURES) == pytest.approx(SMALLEST)


def test_the_words_say_what_the_picture_shows() -> None:
    alt = composed("chords", song_bars(1, 2)).alt
    assert "A major" in alt and "C♯7 (V7/vi)" in alt and "F♯m (vi)" in alt

"""Chord boxes as they are drawn: strings, frets, barres, left and right, what sounds now."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from studio.drawing.frame import CanvasSize
from studio.drawing.instruments.box_grid import Boxes, Shown, arranged, boxes_extent, draw_boxes
from studio.drawing.instruments.chord_box import BoxLayout, ChordBox, symbol_size
from studio.drawing.lettering.symbols import RAISED, SymbolWords
from studio.drawing.themes.theme import SMALLEST, default_theme

THEME = default_theme()
WIDE = CanvasSize(1920, 1080)
LAYOUT = BoxLayout(WIDE, 6, 4, left_handed=False, capo=False, under=False, fingered=False, fingers=True)
A = ChordBox(SymbolWords("A"), (None, 0, 2, 2, 2, 0), (0, 0, 1, 2, 3, 0), (), 1)
D = ChordBox(SymbolWords("D"), (None, None, 0, 2, 3, 2), (0, 0, 0, 1, 3, 2), (), 1)
C = ChordBox(SymbolWords("C"), (None, 3, 2, 0, 1, 0), (0, 3, 2, 0, 1, 0), (), 1)
F = ChordBox(SymbolWords("F"), (1, 3, 3, 2, 1, 1), (1, 3, 4, 2, 1, 1), ((1, 0, 5),), 1)
SIZE = (1728, 376)


def lit(content: Boxes, look: Shown, colour: tuple[int, int, int]) -> np.ndarray:
    picture = np.asarray(draw_boxes(content, look, SIZE, THEME)).astype(int)
    return np.asarray(np.abs(picture[..., :3] - colour).max(-1) < 8)


def blobs(columns: np.ndarray) -> int:
    return int(np.diff(np.concatenate(([0], columns.astype(int)))).clip(0).sum())


def test_three_fingers_side_by_side_are_three_dots_on_one_fret() -> None:
    found = lit(Boxes(LAYOUT, (A,), "", 60), Shown(0), THEME.colours.now)[80:]
    rows = np.flatnonzero(found.any(1))
    middle = found[(rows.min() + rows.max()) // 2 - 14]
    assert blobs(middle) == 3
    assert rows.max() - rows.min() < 60


def test_a_barre_is_one_bar_over_its_strings() -> None:
    found = lit(Boxes(LAYOUT, (F,), "", 60), Shown(0), THEME.colours.now)[80:]
    first = np.flatnonzero(found.any(1))[6]
    assert blobs(found[first]) == 1
    assert found[first].sum() > 180


def test_a_left_handed_box_is_the_mirror_of_a_right_handed_one() -> None:
    plain = replace(LAYOUT, fingers=False)
    right = lit(Boxes(plain, (C,), "", 60), Shown(0), THEME.colours.now)[80:]
    left = lit(Boxes(replace(plain, left_handed=True), (C,), "", 60), Shown(0), THEME.colours.now)[80:]
    one, mirrored = cut(right), cut(left[:, ::-1])
    assert differ(one, mirrored) < 0.05  # no more than a rounded pixel at the edges
    assert differ(one, cut(right[:, ::-1])) > 0.5  # and C is no mirror of itself


def cut(found: np.ndarray) -> np.ndarray:
    columns = np.flatnonzero(found.any(0))
    return np.asarray(found[:, columns.min() : columns.min() + 160])


def differ(one: np.ndarray, two: np.ndarray) -> float:
    return float((one != two).sum() / one.sum())


def test_now_and_next_differ_in_shape_as_well_as_in_colour() -> None:
    # WCAG 2.2, 1.4.1: colour is not the only means.
    content = Boxes(LAYOUT, (A, D), "", 60)
    now = lit(content, Shown(0, 1), THEME.colours.now)[:80]
    following = lit(content, Shown(0, 1), THEME.colours.next)[:80]
    assert now.any(0).sum() > 3 * following.any(0).sum() > 0
    assert np.flatnonzero(now.any(0)).max() < np.flatnonzero(following.any(0)).min()


@pytest.mark.parametrize("count", [1, 2, 5, 7, 12, 20])
@pytest.mark.parametrize("size", [(1728, 300), (566, 700), (896, 500), (440, 320)])
def test_every_box_has_a_place_on_some_page(count: int, size: tuple[int, int]) -> None:
    boxes = tuple(replace(A, symbol=SymbolWords("A", "m", str(number))) for number in range(count))
    grid = arranged(Boxes(LAYOUT, boxes, "", 60), *size, THEME)
    assert grid.columns * grid.rows * grid.pages >= count
    assert grid.columns * grid.rows * (grid.pages - 1) < count


def test_the_page_turns_to_what_sounds() -> None:
    boxes = tuple(replace(A, symbol=SymbolWords("A", "m", str(number))) for number in range(20))
    content = Boxes(LAYOUT, boxes, "", 40)
    assert arranged(content, *SIZE, THEME).pages > 1
    assert (
        lit(content, Shown(0), THEME.colours.now).any() and lit(content, Shown(19), THEME.colours.now).any()
    )
    first, last = (draw_boxes(content, Shown(now), SIZE, THEME).tobytes() for now in (0, 19))
    assert first != last


def test_no_part_of_a_symbol_is_smaller_than_a_phone_shows() -> None:
    assert symbol_size(THEME, 1.0) * RAISED >= SMALLEST - 0.5


def test_a_wish_never_exceeds_what_the_slot_may_take() -> None:
    boxes = tuple(replace(A, symbol=SymbolWords("A", "m", str(number))) for number in range(20))
    extent = boxes_extent(Boxes(LAYOUT, boxes, "", 52.0), 1728, THEME)
    assert extent.least <= extent.wanted <= 52.0


@pytest.mark.parametrize("left_handed", [False, True])
def test_the_number_of_a_fret_stands_clear_of_a_dot_on_the_outer_string(left_handed: bool) -> None:
    """Twelve is the widest number that a search comes to."""
    g5 = replace(A, frets=(12, 14, 14, None, None, None), fingers=(1, 3, 4, 0, 0, 0), lowest=12)
    content = Boxes(replace(LAYOUT, left_handed=left_handed, fingers=False), (g5, g5), "", 60)
    dots, words = lit(content, Shown(0), THEME.colours.now), lit(content, Shown(0), THEME.colours.ink)
    rows = np.flatnonzero(dots[110:].any(1)) + 110
    first = slice(
        rows.min(), rows.min() + 30
    )  # the row of the first dot; the other box's dots are of ink as well
    dot, word = np.flatnonzero(dots[first].any(0)), np.flatnonzero(words[first].any(0))
    mine = word[word > dot.max()] if left_handed else word[word < dot.min()]
    gap = mine.min() - dot.max() if left_handed else dot.min() - mine.max()
    assert 4 <= gap <= 20


def test_rings_and_crosses_stand_clear_of_a_capo() -> None:
    content = Boxes(replace(LAYOUT, capo=True), (A,), "", 60)
    capo = lit(content, Shown(), THEME.colours.quiet)
    bar = np.flatnonzero(capo.sum(1) > 200)  # wider than any cross
    rings = np.flatnonzero(lit(content, Shown(), THEME.colours.ink)[: bar.min()].any(1))
    assert 3 <= bar.min() - rings.max() <= 12

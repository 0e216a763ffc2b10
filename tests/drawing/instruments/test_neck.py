"""The neck as it is drawn: where a dot stands, mirrored for left-handed players, the wires where physics puts them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from studio.drawing.frame import CanvasSize
from studio.drawing.instruments.neck import Lit, Neck, NeckDot, least_width, neck_extent
from studio.drawing.instruments.neck_drawing import _Drawing, draw_neck
from studio.drawing.themes.theme import default_theme

THEME = default_theme()
NECK = Neck(CanvasSize(1920, 1080), ("E", "A", "D", "G", "B", "E"), 0, 12, 0, False)
SIZE = (1728, 400)


def centre(
    content: Neck, dot: NeckDot, colour: tuple[int, int, int] = THEME.colours.now
) -> tuple[float, float]:
    picture = np.asarray(draw_neck(content, Lit((dot,)), SIZE, THEME)).astype(int)
    ys, xs = np.nonzero(np.abs(picture[..., :3] - colour).max(-1) < 8)
    return float(xs.min() + xs.max()) / 2, float(ys.min() + ys.max()) / 2


def test_higher_frets_lie_to_the_right_and_higher_strings_above() -> None:
    """The player's view, as in tablature: the low string is the lowest line. Common practice."""
    low, up = centre(NECK, NeckDot(0, 1, "", "now")), centre(NECK, NeckDot(0, 5, "", "now"))
    assert low[0] < up[0] and low[1] == pytest.approx(up[1], abs=1)
    high = centre(NECK, NeckDot(5, 1, "", "now"))
    assert high[1] < low[1] and high[0] == pytest.approx(low[0], abs=1)


def test_left_handed_is_turned_round() -> None:
    turned = replace(NECK, left_handed=True)
    assert centre(turned, NeckDot(2, 1, "", "now"))[0] > centre(turned, NeckDot(2, 7, "", "now"))[0]
    assert centre(turned, NeckDot(0, 1, "", "now"))[1] > centre(turned, NeckDot(5, 1, "", "now"))[1]


def test_wires_stand_where_equal_temperament_puts_them() -> None:
    """Fret n cuts the string to 2^(−n/12) of its length, so the twelfth is half of it: ISO 16's temperament."""
    edges = _Drawing(NECK, SIZE, THEME).edges
    nut, last = edges[0], edges[12]
    scale = (last - nut) * 2
    for fret, edge in enumerate(edges):
        assert edge - nut == pytest.approx(scale * (1 - 2 ** (-fret / 12)), abs=0.5)


def test_a_crowded_neck_evens_its_frets_so_that_words_do_not_touch() -> None:
    crowded = replace(NECK, last=15, longest="♯11")
    width = round(least_width(crowded, THEME)) + 2
    edges = _Drawing(crowded, (width, 400), THEME).edges
    widths = [two - one for one, two in pairwise(edges)]
    assert max(widths) - min(widths) < 2


def test_now_is_full_and_next_is_hollow() -> None:
    # WCAG 2.2, 1.4.1: colour is not the only means.
    def ink(role: str) -> int:
        colour = THEME.colours.now if role == "now" else THEME.colours.next
        dot = NeckDot(3, 5, "", role)  # type: ignore[arg-type]
        picture = np.asarray(draw_neck(NECK, Lit((dot,)), SIZE, THEME)).astype(int)
        return int((np.abs(picture[..., :3] - colour).max(-1) < 8).sum())

    assert ink("now") > 2 * ink("next") > 0


def test_inlays_are_the_instrument_s_whatever_the_capo() -> None:
    """With a capo on fret 2 the inlay of the fifth fret is under the third one counted from it."""

    def marked(content: Neck, fret: int) -> bool:
        drawing = _Drawing(content, SIZE, THEME)
        drawing.board()
        x, y = round(drawing._middle(fret)), round((drawing.top + drawing.bottom) / 2)
        return drawing.sheet.picture.getpixel((x, y))[:3] == THEME.colours.rule  # type: ignore[index]

    assert [fret for fret in range(1, 12) if marked(NECK, fret)] == [3, 5, 7, 9]
    assert [fret for fret in range(1, 9) if marked(replace(NECK, capo=2), fret)] == [1, 3, 5, 7]


def test_the_least_height_still_holds_every_string() -> None:
    extent = neck_extent(NECK, THEME)
    drawing = _Drawing(NECK, (1728, round(extent.least * 8)), THEME)
    assert drawing.top - drawing.string / 2 >= 0 and drawing.bottom + drawing.string / 2 <= extent.least * 8

from __future__ import annotations

from dataclasses import replace

import pytest

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.type import plain, wrap
from studio.drawing.map.small_print import LEADING, print_size, tall
from studio.drawing.themes.theme import SMALLEST, default_theme

WIDE = CanvasSize(1920, 1080)
THEME = default_theme()


@pytest.mark.parametrize("small", [28.0, 40.0, 60.0, 120.0, 400.0])
def test_no_word_is_wider_than_its_room_and_none_is_too_small(small: float) -> None:
    theme = replace(THEME, sizes=replace(THEME.sizes, small=small))
    words, room = "prepared by its dominant, unmistakably", 300.0
    size = print_size([words], room, WIDE, theme)
    assert SMALLEST <= size <= small
    for word in wrap(words, size, theme.weights.regular, 1.0):
        assert plain(word, size, theme.weights.regular).width <= room + 0.01
    # As large as the theme says, or as fills the room.
    widest = max(plain(word, size, theme.weights.regular).width for word in words.split())
    assert size == small or widest == pytest.approx(room, rel=0.01)


def test_lines_are_a_leading_apart() -> None:
    assert tall(0, 28) == 0
    assert tall(3, 28) - tall(2, 28) == pytest.approx(LEADING * 28)

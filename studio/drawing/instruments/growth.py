"""How instruments grow with the theme's type: lengths in units are given for words of one size."""

from __future__ import annotations

from studio.drawing.lettering.symbols import RAISED
from studio.drawing.themes.theme import Theme

_WORDS = 28
"""Pixels at 1080 lines of the small words for which lengths are given."""


def growth(theme: Theme) -> float:
    """How many times larger everything is drawn, so that the theme's small words have their room."""
    return theme.sizes.small / _WORDS


def least_symbol(theme: Theme) -> float:
    """Pixels at 1080 lines of a chord symbol of which no part is smaller than the theme's small words."""
    return theme.sizes.small / RAISED

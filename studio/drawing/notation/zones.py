"""The room that words and marks take around a system of notation. It grows with the theme's sizes of type."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP, DESCENDER
from studio.drawing.lettering.symbols import RAISED
from studio.drawing.themes.theme import Theme

OVER = 0.62
"""Size of the chord symbols over the staff, in shares of the theme's: they explain, and do not lead."""

_TIGHT_EDGE, _TIGHT_EDGE_WITH_DOTS = 1.6, 2.4
"""Units between a panel's edge and what stands on it where height is short, and where the dots of pages lie there."""

_NAME = 0.95
"""From one name of a line to the next where many stand close, in sizes of their type."""


@dataclass(frozen=True)
class Zones:
    """Units of height: from the panel's edge to what stands on it; of a row of chord symbols, of the mark under
    what sounds, of a line of labels and one of small print; and between one system and the next."""

    edge: float
    chords: float
    mark: float
    label: float
    figure: float
    between: float


def zones(theme: Theme, ease: float = 1.0, paged: bool = False) -> Zones:
    """The zones where there is height enough (`ease` 1), where there is just enough (0), or in between."""
    edge = _TIGHT_EDGE_WITH_DOTS if paged else _TIGHT_EDGE
    small = (CAP + DESCENDER) * theme.sizes.small / 8
    return Zones(
        edge=edge + (PADDING - edge) * ease,
        chords=CAP * chord_size(theme) / 8 + 1.4 + 0.8 * ease,
        mark=2.4 + 0.35 * ease,
        label=CAP * theme.sizes.label / 8 + 0.8 + 0.3 * ease,
        figure=small + 0.6 + 0.35 * ease,
        between=3.0 + 0.5 * ease,
    )


def chord_size(theme: Theme) -> float:
    """Pixels at 1080 lines of a chord symbol over the staff: no part of it is smaller than the smallest words."""
    return max(theme.sizes.symbol * OVER, theme.sizes.small / RAISED)


def name_pitch(theme: Theme) -> float:
    """Units from the name of one line to the next where they stand as close as they may."""
    return _NAME * theme.sizes.small / 8

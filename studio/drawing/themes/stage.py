"""What of a theme the timeline needs before anything is drawn."""

from __future__ import annotations

from fractions import Fraction

from studio.drawing.lettering.runs import without_font
from studio.drawing.themes.theme import Theme
from studio.timeline.stage import Fades, Stage


def stage_of(theme: Theme) -> Stage:
    """The stage that a theme sets."""
    appear, leave = (Fraction(str(seconds)) for seconds in (theme.timing.appear, theme.timing.leave))
    return Stage(
        fades=Fades(appear, leave),
        slots=theme.slots,
        theme=theme,
        lacking=lambda text: without_font(text, theme.weights.strong),
    )

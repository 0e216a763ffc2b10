"""What every callout's picture starts from: the unit of its canvas and the panel that its words stand on."""

from __future__ import annotations

from dataclasses import dataclass

from studio.drawing.paint import Sheet
from studio.drawing.themes.theme import Theme
from studio.project.episode_values import Canvas
from studio.timeline.layout import UNITS

PADDING = 3.0
"""Units between a panel's edge and what stands on it."""

CORNER = 1.25
"""Units of a panel's rounding."""


@dataclass(frozen=True)
class CanvasSize:
    """Width and height of the canvas that a content was composed for, in pixels."""

    width: int
    height: int

    @property
    def unit(self) -> float:
        """Pixels of one unit."""
        return min(self.width, self.height) / UNITS

    @property
    def portrait(self) -> bool:
        return self.height > self.width

    @property
    def lane(self) -> float:
        """Pixels across which a callout may spread: title-safe, less the buttons of a portrait player."""
        return self.width * (0.83 if self.portrait else 0.9)

    @classmethod
    def of(cls, canvas: Canvas) -> CanvasSize:
        """The size of an episode's canvas."""
        return cls(canvas.width, canvas.height)

    def pixels(self, size: float) -> float:
        """A size that a theme gives for 1080 lines, on this canvas."""
        return size * self.unit / 8


def panelled(size: tuple[int, int], canvas: CanvasSize, theme: Theme) -> Sheet:
    """A sheet of `size` with the panel of a callout on it."""
    sheet = Sheet(size)
    sheet.panel(theme.colours.panel, theme.panel_opacity, CORNER * canvas.unit)
    return sheet

"""What a theme is: colours by role, sizes and weights of type, fonts to fall back on, timing, slots."""

from __future__ import annotations

from dataclasses import dataclass, fields

from studio.drawing.lettering.face import Face, Weight, face_of
from studio.drawing.themes.contrast import Colour
from studio.timeline.slots import Slots

SMALLEST = 28
"""Pixels on a 1080 canvas under which nobody reads on a phone; no theme may go below."""


@dataclass(frozen=True)
class Colours:
    """What each colour is for. See templates/themes/slate.yaml."""

    ground: Colour
    panel: Colour
    ink: Colour
    quiet: Colour
    rule: Colour
    now: Colour
    next: Colour
    on_accent: Colour
    light_key: Colour
    dark_key: Colour


@dataclass(frozen=True)
class Sizes:
    """Sizes of type in pixels on a canvas whose shorter side is 1080."""

    small: float
    label: float
    numeral: float
    body: float
    title: float
    symbol: float
    hero: float


@dataclass(frozen=True)
class Weights:
    """Three weights of the one text family, on its scale from 200 to 900; in a theme each knows its fonts."""

    regular: Weight
    strong: Weight
    heavy: Weight

    def with_fonts(self, fonts: tuple[str, ...]) -> Weights:
        """The same weights, with fonts for what the text family lacks."""
        return Weights(*(Face(face_of(one).weight, fonts) for one in (self.regular, self.strong, self.heavy)))


@dataclass(frozen=True)
class Timing:
    """Seconds in which a callout comes and goes."""

    appear: float
    leave: float


@dataclass(frozen=True)
class Theme:
    """All that a person may change about how pictures look. The same theme draws the same picture.

    `fonts`: where the text family lacks a character, the fonts to look for it in, one after the other: the name
    of an installed package of fonts, or the path of a file. `least_contrast`: what text is held to on its ground, to 1.
    """

    name: str
    colours: Colours
    panel_opacity: float
    sizes: Sizes
    weights: Weights
    timing: Timing
    slots: Slots
    fonts: tuple[str, ...] = ()
    least_contrast: float = 4.5

    def __post_init__(self) -> None:
        # Whoever sets type passes a weight on and need not think of fonts.
        object.__setattr__(self, "weights", self.weights.with_fonts(self.fonts))


def words(name: str) -> str:
    """A field's name as a theme file writes it: `on_accent` is `on accent`."""
    return name.replace("_", " ")


def names(group: type) -> tuple[str, ...]:
    """The fields of a group, as a theme file writes them."""
    return tuple(words(field.name) for field in fields(group))

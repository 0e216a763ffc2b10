"""What a theme is: colours by role, sizes and weights of type, fonts to fall back on, timing, slots."""

from __future__ import annotations

from dataclasses import dataclass, fields

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
    """Three weights of the one text family, on its scale from 200 to 900."""

    regular: float
    strong: float
    heavy: float


@dataclass(frozen=True)
class Timing:
    """Seconds in which a callout comes and goes."""

    appear: float
    leave: float


@dataclass(frozen=True)
class Theme:
    """All that a person may change about how pictures look. The same theme draws the same picture.

    `fonts`: where the text family lacks a character, the files to look for it in, one after the other: the
    path of each. `least_contrast`: what text is held to on its ground, to 1.
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


def words(name: str) -> str:
    """A field's name as a theme file writes it: `on_accent` is `on accent`."""
    return name.replace("_", " ")


def names(group: type) -> tuple[str, ...]:
    """The fields of a group, as a theme file writes them."""
    return tuple(words(field.name) for field in fields(group))

"""What a kind of callout is. Each lives in one module of the drawing room and registers itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Protocol

from studio.project.callouts import CalloutOptions
from studio.project.episode_values import Canvas
from studio.timeline.ask import Ask


@dataclass(frozen=True)
class Composed:
    """What a kind decided to show, before anything is drawn.

    `states`: (start, end, look) in song quarters, ascending; between them, and where there are none,
    `default` is shown. `still`: the look of the PNG. `alt`: the picture in words. Everything is frozen.
    """

    content: Any
    states: tuple[tuple[Fraction, Fraction, Any], ...]
    still: Any
    default: Any
    alt: str


class Kind(Protocol):
    """A kind of callout: what it takes, what it asks, how tall it is, what it looks like."""

    name: str
    Options: type[CalloutOptions]
    slot: str

    def compose(self, options: Any, ask: Ask) -> Composed:
        """Ask for facts and decide what is shown when. Refuses through `ask.refuse`."""
        ...

    def height(self, content: Any, canvas: Canvas) -> int:
        """Height that the content wants, in units of 1/135 of the canvas's shorter side (8 px at 1080)."""
        ...

    def draw(self, content: Any, look: Any, size: tuple[int, int], theme: Any) -> Any:
        """An RGBA picture (Pillow) of exactly `size`, straight alpha."""
        ...


Kinds = Mapping[str, Kind]

"""What a kind of callout is. Each lives in one module and registers itself; see DEVELOPERS.md."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from studio.project.callouts import CalloutOptions
from studio.project.episode_values import Canvas
from studio.timeline.ask import Ask
from studio.timeline.furniture import MarkShape
from studio.timeline.slots import SIDES, SlotName, shape


@dataclass(frozen=True)
class Composed:
    """What a kind decided to show, before anything is drawn.

    `states`: (start, end, look) in song quarters, ascending; between them, and where there are none,
    `default` is shown. `still`: the look of the PNG, and `still_at` the moment of the song, in quarters, at
    which moving marks stand in it. `alt`: the picture in words. Everything is frozen and hashable.

    States are of the song as it is written. They follow its clock, whatever of it is made to sound: a staff of the
    lead moves over the keys alone, as a score on a stand does. What is *changed* in a pass is another matter, since
    there the picture would contradict the ear: in those stretches no state holds. `changed` are the looks for them,
    (start, end, look) as in `states`; where there are none, what sounded before gives way to `quiet`.
    """

    content: Any
    states: tuple[tuple[Fraction, Fraction, Any], ...]
    still: Any
    default: Any
    alt: str
    still_at: Fraction | None = None
    changed: tuple[tuple[Fraction, Fraction, Any], ...] = ()


@dataclass(frozen=True)
class Extent:
    """Heights in units of 1/135 of the canvas's shorter side (8 px at 1080): what a content wants, and the
    least at which all its words have at least the smallest size that can be read."""

    least: float
    wanted: float


@dataclass(frozen=True)
class Leg:
    """A stretch of a mark's way: from `at` at quarter `start` to `to` at quarter `end`, evenly in song time.

    Places are of the mark's middle, in pixels from the top left of the callout's picture.
    """

    start: Fraction
    end: Fraction
    at: tuple[float, float]
    to: tuple[float, float]


@dataclass(frozen=True)
class Mark:
    """A small shape that moves over a callout with the sound: drawn once, moved often.

    `size`: width and height in pixels. Outside its legs it is not shown.
    """

    shape: MarkShape
    size: tuple[int, int]
    path: tuple[Leg, ...]


class Looks:
    """How looks give way where the song breaks off: at its end, or where a pass is changed and it is not heard."""

    def last(self, look: Any) -> Any:
        """A look that nothing follows: it may not say what comes next."""
        return look

    def quiet(self, look: Any, default: Any) -> Any:
        """What follows it, with nothing lit. Kinds that turn pages stay on theirs; `default` may be their first."""
        return default


class Kind(ABC, Looks):
    """A kind of callout: what it takes, what it asks, how tall it is, what it looks like.

    `says`: what it shows, in one line. `slots`: where it may stand, the best place on a wide canvas first.
    `example`: a callout as a project file writes it, for the song in `templates/example`; by it the kind is
    shown in lists and looked at in tests.
    """

    name: ClassVar[str]
    says: ClassVar[str]
    Options: ClassVar[type[CalloutOptions]]
    slots: ClassVar[tuple[SlotName, ...]] = ("lower", "card")
    example: ClassVar[str]

    def slot(self, canvas: Canvas) -> SlotName:
        """Where it stands when the project does not say: beside the presenter only where there is width."""
        if shape(canvas) == "wide":
            return self.slots[0]
        return next((slot for slot in self.slots if slot not in SIDES), self.slots[0])

    @abstractmethod
    def compose(self, options: Any, ask: Ask) -> Composed:
        """Ask for facts and decide what is shown when. Refuses through `ask.refuse`.

        `ask.room` is the most room that its slot can give; what cannot be read in it is refused here.
        """

    @abstractmethod
    def extent(self, content: Any, width: int, theme: Any) -> Extent:
        """How tall the content is in a picture `width` pixels wide, drawn with `theme`."""

    @abstractmethod
    def draw(self, content: Any, look: Any, size: tuple[int, int], theme: Any) -> Any:
        """An RGBA picture (Pillow) of exactly `size`, straight alpha. The height is from the least up."""

    def marks(self, content: Any, size: tuple[int, int], theme: Any) -> tuple[Mark, ...]:
        """What moves over the picture of `size`."""
        return ()


Kinds = Mapping[str, Kind]

"""What the kinds of callout that are maps have in common: a stretch of song to scale, in blocks of which one is lit."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from PIL import Image
from pydantic import Field

from studio.drawing.frame import CanvasSize
from studio.drawing.map.block import Block
from studio.drawing.map.here import Here, moments, sounding
from studio.drawing.map.ruler import Scale
from studio.drawing.themes.theme import Theme
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, PlaceText
from studio.theory.plain_english import listed
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind


class MapOptions(CalloutOptions):
    """Options of every map."""

    scale: Scale = Field("time", description="to scale by time, or by bars with every bar as long")
    of: PlaceText | None = Field(None, description="a stretch of song, to show only that part of the map")


@dataclass(frozen=True)
class Mapped:
    """A map before it is known what of it sounds.

    `blocks`: what each block is called in a sentence, and the stretch that it stands for. `words`: the picture in
    words, but for what is lit.
    """

    content: Any
    blocks: tuple[tuple[str, Span], ...]
    words: str


class MapSetting(Protocol):
    """How a map is set in a picture of some width."""

    @property
    def extent(self) -> Extent: ...

    def unnamed(self) -> Sequence[Block]:
        """The blocks that have no room for a name or a mark."""
        ...


class MapKind(Kind):
    """A kind that is a map. It says what is mapped, how that is set, and draws it."""

    slots = ("lower", "top", "card")

    @abstractmethod
    def mapped(self, options: Any, ask: Ask, whole: Span) -> Mapped:
        """The map of a stretch of song, or a refusal."""

    @abstractmethod
    def setting(self, content: Any, width: int, theme: Theme) -> MapSetting:
        """The map in a picture of this width."""

    @abstractmethod
    def too_short(self, block: Block) -> str:
        """That a block is too short beside the rest to be named."""

    def compose(self, options: MapOptions, ask: Ask) -> Composed:
        whole = options.of or ask.facts.whole
        made = self.mapped(options, ask, whole)
        self._refuse_what_has_no_room(made.content, options, ask)
        sounds = sounding(ask)
        when = moments([span for _, span in made.blocks], whole, sounds, options.where)
        said = sounds or options.where
        lit = dict.fromkeys(name for name, span in made.blocks if said and span.overlaps(said))
        alt = f"{made.words} Lit: {listed(list(lit))}." if lit else made.words
        return Composed(made.content, when.states, when.still, when.default, alt, when.still_at)

    def extent(self, content: Any, width: int, theme: Theme) -> Extent:
        return self.setting(content, width, theme).extent

    @abstractmethod
    def draw(self, content: Any, look: Here, size: tuple[int, int], theme: Theme) -> Image.Image: ...

    def fits(self, content: Any, ask: Ask) -> bool:
        """Whether the slot is as tall as the map needs."""
        least = self.setting(content, ask.room.width, ask.theme).extent.least
        return least * CanvasSize.of(ask.canvas).unit <= ask.room.height + 0.01

    def _refuse_what_has_no_room(self, content: Any, options: MapOptions, ask: Ask) -> None:
        found = self.setting(content, ask.room.width, ask.theme)
        if lost := found.unnamed():
            less = "a shorter 'of'" if options.of else "an 'of', as 'of: 5-8'"
            ask.refuse(
                "of" if options.of else "kind",
                f"{self.too_short(lost[0])}; show less of the song with {less}",
            )
        if not self.fits(content, ask):
            slot = options.slot or self.slot(ask.canvas)
            other = "the slot 'card', or " if slot != "card" else ""
            ask.refuse(
                "slot" if options.slot else "kind",
                f"the map is taller than the slot '{slot}'; choose {other}show less of the song with 'of'",
            )

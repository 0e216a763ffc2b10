"""A kind of callout for tests: it tells what it was told, and has two looks and one mark that moves."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction as F
from typing import Any

from studio.music.place import Span
from studio.project.callouts import CalloutOptions
from studio.timeline.ask import Ask, Room
from studio.timeline.kind import Composed, Extent, Kind, Leg, Mark
from studio.timeline.slots import SlotName


class SignOptions(CalloutOptions):
    tall: int = 20


@dataclass(frozen=True)
class Sign:
    """What the kind shows: how tall it is, the room that it was told, and the stretch of song."""

    tall: int
    room: Room
    span: Span


class SignKind(Kind):
    name = "sign"
    says = "a sign"
    Options = SignOptions
    slots: tuple[SlotName, ...] = ("left", "right", "lower", "card")
    example = "{kind: sign}"

    def compose(self, options: SignOptions, ask: Ask) -> Composed:
        span = ask.the_span()
        states = ((span.start, span.start + 2, "early"), (span.start + 2, span.end, "late"))
        return Composed(Sign(options.tall, ask.room, span), states, "early", "early", "A sign.", span.start)

    def extent(self, content: Sign, width: int, theme: Any) -> Extent:
        assert width == content.room.width, "a kind is measured in the room that it composed for"
        return Extent(content.tall, content.tall)

    def draw(self, content: Any, look: Any, size: tuple[int, int], theme: Any) -> Any:
        raise NotImplementedError

    def marks(self, content: Sign, size: tuple[int, int], theme: Any) -> tuple[Mark, ...]:
        return (Mark("dot", (10, 10), (Leg(F(0), F(16), (0.0, 20.0), (float(size[0]), 20.0)),)),)


KINDS = {"sign": SignKind()}

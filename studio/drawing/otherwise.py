"""What callouts show and say where a pass sounds otherwise than is written."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import TypeVar

from studio.music.place import Span
from studio.theory.plain_english import listed
from studio.timeline.ask import Ask
from studio.timeline.changes import Changed

Look = TypeVar("Look")


def kept(
    states: Iterable[tuple[Fraction, Fraction, Look]], changed: Iterable[Changed]
) -> tuple[tuple[Fraction, Fraction, Look], ...]:
    """States as they are, for the stretches of changes that do not touch what they show."""
    spans = [one.span for one in changed]
    return tuple(sorted(_shared(states, spans), key=lambda state: state[:2]))


def _shared(
    states: Iterable[tuple[Fraction, Fraction, Look]], spans: Iterable[Span]
) -> Iterator[tuple[Fraction, Fraction, Look]]:
    spans = list(spans)
    for start, end, look in states:
        for span in spans:
            if start < span.end and span.start < end:
                yield max(start, span.start), min(end, span.end), look


def changes_said(ask: Ask, touches: Callable[[Changed], bool]) -> str:
    """The end of an alternative text: what sounds otherwise of what the picture shows; "" where nothing does."""
    said = [
        f"{one.sound} sounds instead of {one.written} ({ask.time.words(one.span)})"
        for one in ask.changed
        if touches(one)
    ]
    return f" Where the excerpt is played otherwise, {listed(said)}." if said else ""

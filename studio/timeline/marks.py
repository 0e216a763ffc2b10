"""Moving marks on the frames of a clip: a way through the song becomes glides of a small layer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.timeline.clock import ClipClock
from studio.timeline.furniture import MarkPicture
from studio.timeline.kind import Leg, Mark
from studio.timeline.state import Box, Glide, Layer, State


def mark_layer(mark: Mark, callout: Box, start: int, end: int, clock: ClipClock) -> Layer:
    """The layer of a mark that moves over a callout, between the frames at which the callout shows."""
    box = _box(mark, callout)
    states = sorted(_states(mark, start, end, clock), key=lambda state: state.start)
    return Layer(MarkPicture.kind, MarkPicture(mark.shape), box, tuple(_one_at_a_time(states)))


def mark_at(mark: Mark, callout: Box, quarters: Fraction) -> Box | None:
    """Where a mark stands at a moment of the song; None where it has no place then."""
    for leg in mark.path:
        if leg.start <= quarters < leg.end or quarters == leg.end == mark.path[-1].end:
            x, y = _between(leg, quarters)
            return _box(mark, callout).moved(round(x / 2) * 2, round(y / 2) * 2)
    return None


def _box(mark: Mark, callout: Box) -> Box:
    """The mark's box when its middle stands at the top left of its callout."""
    width, height = (-(-side // 2) * 2 for side in mark.size)
    return Box(callout.x - width // 4 * 2, callout.y - height // 4 * 2, width, height)


def _states(mark: Mark, start: int, end: int, clock: ClipClock) -> Iterator[State]:
    for leg in _evenly(mark.path, clock.time):
        for heard, first, last in clock.hearings(Span(leg.start, leg.end)):
            if first < last and first < end and last > start:
                glide = Glide(first, last, _between(leg, heard.start), _between(leg, heard.end))
                yield State(first, last, None, glide=glide).part(start, end)


def _evenly(path: Iterable[Leg], time: SongTime) -> Iterator[Leg]:
    """The same way in legs over each of which the tempo is even, and no longer than a bar."""
    for leg in path:
        lines = [at for _, at in time.barlines(Span(leg.start, leg.end))]
        changes = {at for at in (*lines, *(at for at, _ in time.anchors)) if leg.start < at < leg.end}
        for one, two in pairwise([leg.start, *sorted(changes), leg.end]):
            if one < two:
                yield Leg(one, two, _between(leg, one), _between(leg, two))


def _between(leg: Leg, quarters: Fraction) -> tuple[float, float]:
    share = float((quarters - leg.start) / (leg.end - leg.start)) if leg.end > leg.start else 0.0
    x, y = (one + (two - one) * share for one, two in zip(leg.at, leg.to, strict=True))
    return x, y


def _one_at_a_time(states: Iterable[State]) -> Iterator[State]:
    """A mark is in one place at a time: a leg ends where the next begins."""
    for one, two in pairwise([*states, None]):
        assert one is not None
        end = min(one.end, two.start) if two else one.end
        if one.start < end:
            yield replace(one, end=end)

"""A ruler along a stretch of song: where each moment stands, to scale, by time or by bars."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.timeline.kind import Leg

Scale = Literal["time", "bars"]


@dataclass(frozen=True)
class Ruler:
    """Points (quarters, share of the whole length from 0 to 1), ascending; even between neighbours."""

    points: tuple[tuple[Fraction, float], ...]

    @property
    def span(self) -> Span:
        return Span(self.points[0][0], self.points[-1][0])

    def share(self, quarters: Fraction) -> float:
        """Where a moment stands, from 0 at the start to 1 at the end; what lies outside stands at that end."""
        place = bisect_right([at for at, _ in self.points], quarters)
        if place == 0:
            return self.points[0][1]
        if place == len(self.points):
            return self.points[-1][1]
        (one, left), (two, right) = self.points[place - 1], self.points[place]
        return left + (right - left) * float((quarters - one) / (two - one))

    def legs(self, span: Span, left: float, width: float, y: float) -> tuple[Leg, ...]:
        """The way of a mark along a stretch, at height `y` in pixels: share 0 is at `left`, 1 is `width` on."""
        inner = [at for at, _ in self.points if span.start < at < span.end]
        return tuple(
            Leg(one, two, (left + self.share(one) * width, y), (left + self.share(two) * width, y))
            for one, two in pairwise([span.start, *inner, span.end])
        )


def ruler(time: SongTime, span: Span, scale: Scale) -> Ruler:
    """The ruler of a stretch. By time a second is as long anywhere; by bars each bar is, whatever its meter."""
    edges = {span.start, span.end}
    edges |= {at for _, at in time.barlines(span)}
    edges |= {at for at, _ in time.anchors if span.contains(at)}
    moments = sorted(edges)
    measure = time.seconds if scale == "time" else _Bars(time).count
    first, last = measure(span.start), measure(span.end)
    return Ruler(tuple((at, float((measure(at) - first) / (last - first))) for at in moments))


@dataclass(frozen=True)
class _Bars:
    time: SongTime

    def count(self, quarters: Fraction) -> Fraction:
        """Bars from bar 1 beat 1 to a moment; negative in a pickup."""
        bar = self.time.bar_at(quarters)
        meter = self.time.meter(bar)
        if bar == 0:
            return quarters / meter.bar
        return bar - 1 + (quarters - self.time.bar_start(bar)) / meter.bar

"""Song time: bar and beat to seconds and back, exactly.

Three scales are in play. A *place* is what people say (bar 6, beat 3). *Quarters* are quarter notes from
bar 1 beat 1, negative in a pickup. *Seconds* are the recording's own. Meters tie the first two, anchors
the last two; all are Fractions, so a round trip gives back what went in.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from studio.music.meter import Meter
from studio.music.place import Place, Span

Anchor = tuple[Fraction, Fraction]
_USUAL = (1, 2, 3, 4, 6, 8, 12, 16)  # parts of a beat that people name


@dataclass(frozen=True)
class SongTime:
    """The meters and the tempo of one recording.

    `meters`: (first bar, meter) ascending from bar 1. `anchors`: two or more (quarters, seconds), ascending
    both ways; tempo is constant between neighbours and goes on beyond the outer ones. `pickup`: quarter
    notes before bar 1.
    """

    meters: tuple[tuple[int, Meter], ...]
    anchors: tuple[Anchor, ...]
    pickup: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        if not self.meters or self.meters[0][0] != 1:
            raise ValueError("the first meter holds from bar 1")
        if any(a[0] >= b[0] for a, b in pairwise(self.meters)):
            raise ValueError("meter changes must go up in bars")
        if len(self.anchors) < 2:
            raise ValueError("song time needs two anchors, or one and a tempo")
        if any(a[0] >= b[0] or a[1] >= b[1] for a, b in pairwise(self.anchors)):
            raise ValueError("anchors must go up in bars and in seconds")
        if not 0 <= self.pickup < self.meters[0][1].bar:
            raise ValueError("a pickup is shorter than a full bar")

    # Place and quarters

    def meter(self, bar: int) -> Meter:
        """The meter of a bar; a pickup has the meter of bar 1."""
        at = bisect_right([first for first, _ in self.meters], max(bar, 1)) - 1
        return self.meters[at][1]

    def bar_start(self, bar: int) -> Fraction:
        """Quarters at the first beat of a bar; for bar 0, where the pickup starts."""
        if bar < 0 or (bar == 0 and not self.pickup):
            pickup = "; the pickup is bar 0" if self.pickup else ""
            raise ValueError(f"there is no bar {bar}; bars count from 1{pickup}")
        if bar == 0:
            return -self.pickup
        start = Fraction(0)
        for (first, meter), following in zip(self.meters, self._next_changes(), strict=True):
            if following is None or bar < following:
                return start + (bar - first) * meter.bar
            start += (following - first) * meter.bar
        raise AssertionError("the last meter holds for ever")

    def quarters(self, place: Place) -> Fraction:
        """Where a place is. Raises ValueError when the bar has no such beat."""
        meter = self.meter(place.bar)
        first = self.bar_start(place.bar)
        if place.bar == 0:
            full = -meter.bar
            at = full + (place.beat - 1) * meter.beat
            if not first <= at < 0:
                if place.beat == 1:  # "bar 0" as people say it: where the pickup starts
                    return first
                raise ValueError(f"the pickup starts at {self.place(first)}; {place} is not in it")
            return at
        if not 1 <= place.beat < meter.beats + 1:
            raise ValueError(
                f"bar {place.bar} is in {meter} and has beats 1 to {meter.beats}, not {place.beat}"
            )
        return first + (place.beat - 1) * meter.beat

    def bar_at(self, quarters: Fraction) -> int:
        """The number of the bar that sounds at a moment (0 in the pickup, and before it)."""
        if quarters < 0:
            return 0
        start = Fraction(0)
        for (first, meter), following in zip(self.meters, self._next_changes(), strict=True):
            bar = first + int((quarters - start) // meter.bar)
            if following is None or bar < following:
                return bar
            start += (following - first) * meter.bar
        raise AssertionError("the last meter holds for ever")

    def place(self, quarters: Fraction) -> Place:
        """The bar and beat of a moment."""
        bar = self.bar_at(quarters)
        meter = self.meter(bar)
        start = -meter.bar if bar == 0 else self.bar_start(bar)
        return Place(bar, 1 + (quarters - start) / meter.beat)

    def bars(self, first: int, last: int) -> Span:
        """All of bars `first` to `last`, both included."""
        return Span(self.bar_start(first), self.bar_start(last + 1))

    def barlines(self, span: Span) -> tuple[tuple[int, Fraction], ...]:
        """(bar number, quarters of its first beat) for each bar that starts within the span."""
        found = []
        bar = max(self.bar_at(span.start), 0 if self.pickup else 1)
        while (start := self.bar_start(bar)) < span.end:
            if start >= span.start:
                found.append((bar, start))
            bar += 1
        return tuple(found)

    def beats(self, span: Span) -> tuple[Fraction, ...]:
        """Quarters of each counted beat within the span."""
        found: list[Fraction] = []
        bar = self.bar_at(span.start)
        while True:
            meter = self.meter(bar)
            start = -meter.bar if bar == 0 else self.bar_start(bar)
            if start >= span.end:
                return tuple(found)
            found += [at for n in range(meter.beats) if span.contains(at := start + n * meter.beat)]
            bar += 1

    def to_beats(self, span: Span) -> Span:
        """The span with both ends moved to the nearest beats; one that is shorter than a beat stays as it is."""
        start, end = self._nearest_beat(span.start), self._nearest_beat(span.end)
        return Span(start, end) if start < end else span

    def _nearest_beat(self, quarters: Fraction) -> Fraction:
        beat = self.meter(self.bar_at(quarters)).beat
        around = self.beats(Span(quarters - beat, quarters + beat))
        return min(around, key=lambda at: abs(at - quarters))

    def words(self, span: Span) -> str:
        """A span as people say it: "bar 6", "bars 5–8" with both included, "6.4 to 8.3" for what runs up to 8.3.

        What ends at a bar line runs "to the end of" the bar before it: nobody looks for bar 13 in a song of twelve.
        """
        first, after = self.place(span.start), self.place(span.end)
        if after.beat != 1 or not span.length:
            return f"{self.moment(span.start)} to {self.moment(span.end)}"
        last = after.bar - 1
        if first.beat == 1 or span.start == -self.pickup:
            return f"bar {first.bar}" if last == first.bar else f"bars {first.bar}–{last}"
        bar = "the pickup" if last == 0 else "the bar" if last == first.bar else f"bar {last}"
        return f"{self.moment(span.start)} to the end of {bar}"

    def moment(self, quarters: Fraction) -> str:
        """A moment as people say it, its beat always named: "6.1". What lies off any usual grid is rounded."""
        place = self.place(quarters)
        if place.beat.denominator in _USUAL:
            return str(place) if place.beat != 1 else f"{place.bar}.1"
        near = quarters + (Fraction(round(place.beat * 4), 4) - place.beat) * self.meter(place.bar).beat
        return f"about {self.moment(near)}"

    # Quarters and seconds

    def seconds(self, quarters: Fraction) -> Fraction:
        """When a moment sounds, in the recording's own time."""
        (q0, s0), (q1, s1) = self._stretch([q for q, _ in self.anchors], quarters)
        return s0 + (quarters - q0) * (s1 - s0) / (q1 - q0)

    def quarters_at(self, seconds: Fraction) -> Fraction:
        """What sounds at a time; the inverse of `seconds`."""
        (q0, s0), (q1, s1) = self._stretch([s for _, s in self.anchors], seconds)
        return q0 + (seconds - s0) * (q1 - q0) / (s1 - s0)

    def _stretch(self, marks: list[Fraction], at: Fraction) -> tuple[Anchor, Anchor]:
        left = min(max(bisect_right(marks, at) - 1, 0), len(marks) - 2)
        return self.anchors[left], self.anchors[left + 1]

    def _next_changes(self) -> tuple[int | None, ...]:
        return (*(first for first, _ in self.meters[1:]), None)

"""Clicks and bar lines of an excerpt: of its count-in and under its music, on the beats that musicians count."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import count

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.counting import Counting
from studio.project.model import Excerpt
from studio.timeline.clock import Heard
from studio.timeline.heard import Click, nearest_sample
from studio.timeline.passes import passes_of

Beat = tuple[Fraction, bool]
"""A counted beat: where it is, and whether it is the first of its bar."""


def clicks_of(excerpt: Excerpt, time: SongTime) -> tuple[Click, ...]:
    """The clicks of an excerpt, in samples of its cut: each is where its beat is heard, rounded once."""
    beats = [*_before(excerpt, time), *(_under(excerpt, time) if excerpt.click is not None else ())]
    return tuple(Click(nearest_sample(at), strong) for at, strong in beats)


def bars_of(excerpt: Excerpt, time: SongTime) -> tuple[tuple[int, int], ...]:
    """(number of the bar, sample of the cut) of each bar line that is heard, in order."""
    return tuple(
        (number, nearest_sample(heard.clip_time(time.seconds(at))))
        for heard in passes_of(excerpt)
        for number, at in time.barlines(_span(heard, time))
    )


def counted_beats(time: SongTime, span: Span) -> Iterator[Beat]:
    """The counted beats in a stretch of song, in quarters. Before bar 1 its meter goes on backwards."""
    counting = Counting(time)
    for bar in count(counting.bar_at(span.start)):
        start, meter = counting.bar_start(bar), counting.meter(bar)
        if start >= span.end:
            return
        beats = ((start + n * meter.beat, n == 0) for n in range(meter.beats))
        yield from (beat for beat in beats if span.contains(beat[0]))


def _before(excerpt: Excerpt, time: SongTime) -> Iterator[Beat]:
    """A count-in, evenly, at the pace that the project gives it: in seconds of the cut."""
    counted = excerpt.count_in
    if counted is None:
        return
    music = time.quarters_at(excerpt.start)
    pace = counted.seconds / (music - counted.start)
    for at, strong in counted_beats(time, Span(counted.start, music)):
        yield (at - counted.start) * pace, strong


def _under(excerpt: Excerpt, time: SongTime) -> Iterator[Beat]:
    """Clicks under the music, in every pass and under the tail: in seconds of the cut."""
    for heard in passes_of(excerpt):
        for at, strong in counted_beats(time, _span(heard, time)):
            yield heard.clip_time(time.seconds(at)), strong


def _span(heard: Heard, time: SongTime) -> Span:
    """What of the song is heard in a pass."""
    return Span(*map(time.quarters_at, (heard.source, heard.source + heard.length)))

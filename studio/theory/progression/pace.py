"""Harmonic rhythm: how many chords come in a bar, and where that changes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import number_word, plural


@dataclass(frozen=True, slots=True)
class Departure:
    """Bars ``first`` to ``last``, both included, that have another number of ``chords`` than is usual."""

    first: int
    last: int
    chords: int


@dataclass(frozen=True, slots=True)
class Pace:
    """The harmonic rhythm of a span.

    ``chords`` in ``bars`` is the usual pace: 2 in 1 is two chords a bar, 1 in 4 is one chord every four bars,
    0 in 0 means that nothing sounds. ``quicker`` are the bars with more. ``even`` is false when no pace holds
    for most of the span.
    """

    span: Span
    chords: int
    bars: int
    quicker: tuple[Departure, ...]
    even: bool
    reason: str
    sureness: float
    runner_up: str = ""


def harmonic_pace(readings: Sequence[Reading], time: SongTime) -> Pace:
    """How fast the chords change. A chord struck again is no change; one held over a bar line is one chord."""
    if not readings:
        return Pace(Span(Fraction(0), Fraction(0)), 0, 0, (), True, "There are no chords.", 1.0)
    span = Span(readings[0].at.start, readings[-1].at.end)
    changes = _changes(readings)
    counts = [
        (bar, _sounding(changes, Span(start, time.bar_start(bar + 1)))) for bar, start in _bars(span, time)
    ]
    heard = [count for _, count in counts if count]
    if not heard:
        return Pace(span, 0, 0, (), True, "No chord sounds.", 1.0)
    usual, bars_with = min(Counter(heard).items(), key=lambda item: (-item[1], item[0]))
    quicker = _departures([(bar, count) for bar, count in counts if count > usual])
    bars = _bars_each(changes, time) if usual == 1 else 1
    share = bars_with / len(heard)
    return Pace(
        span, usual, bars, quicker, share > 0.5, _reason(bars_with, len(heard), usual, bars), round(share, 2)
    )


def _changes(readings: Sequence[Reading]) -> list[Span]:
    """The spans of the chords, what is struck again joined; N.C. is left out."""
    found: list[Span] = []
    before = None
    for reading in readings:
        chord, at = reading.at.chord, reading.at
        if chord is not None and chord == before and found[-1].end == at.start:
            found[-1] = Span(found[-1].start, at.end)
        elif chord is not None:
            found.append(at.span)
        before = chord
    return found


def _bars(span: Span, time: SongTime) -> list[tuple[int, Fraction]]:
    """Each bar that the span touches, with where it starts; a bar that it enters late is one of them."""
    first = time.bar_at(span.start)
    inside = [(bar, start) for bar, start in time.barlines(span) if bar > first]
    return [(first, time.bar_start(first)), *inside]


def _sounding(changes: Sequence[Span], bar: Span) -> int:
    """Chords that sound in a bar."""
    return sum(1 for chord in changes if chord.overlaps(bar))


def _bars_each(changes: Sequence[Span], time: SongTime) -> int:
    """For how many bars a chord usually stays, where no bar has two."""
    bar = time.meter(time.bar_at(changes[0].start)).bar
    lengths = Counter(max(round(chord.length / bar), 1) for chord in changes)
    return min(lengths.items(), key=lambda item: (-item[1] * item[0], item[0]))[0]


def _departures(bars: Sequence[tuple[int, int]]) -> tuple[Departure, ...]:
    """Bars in a row with the same number of chords, joined."""
    runs = groupby(enumerate(bars), key=lambda item: (item[1][0] - item[0], item[1][1]))
    groups = [[bar for _, bar in run] for _, run in runs]
    return tuple(Departure(group[0][0], group[-1][0], group[0][1]) for group in groups)


def _reason(bars_with: int, bars_in_all: int, chords: int, bars: int) -> str:
    if bars > 1:
        return f"Most chords stay for {bars} bars."
    each = f"{number_word(chords)} {plural(chords, 'chord')}"
    if bars_with == bars_in_all:
        return f"{'The' if bars_in_all == 1 else 'Every'} bar has {each}."
    return f"{bars_with} of {bars_in_all} bars {'has' if bars_with == 1 else 'have'} {each}."

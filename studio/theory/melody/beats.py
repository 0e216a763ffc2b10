"""Strong and weak places of the bar.

A bar divides into halves or thirds, these into beats, beats into halves (thirds in compound meters), and so
on; each level weighs half of the one above, as in Lerdahl and Jackendoff's metrical grids and in music21's
accent weights, which agree for all simple and compound meters. A meter of five or seven beats is not written
with its grouping, so that no beat but the first is called strong there.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from studio.music.meter import Meter
from studio.music.songtime import SongTime

BeatName = Literal["downbeat", "strong beat", "weak beat", "offbeat"]

_DIVISIONS = {1: (), 2: (2,), 3: (3,), 4: (2, 2), 6: (2, 3), 8: (2, 2, 2), 9: (3, 3)}
_FINEST = 8  # levels below the bar; what is finer weighs nothing


@dataclass(frozen=True, slots=True)
class Beat:
    """Where in its bar a moment is: ``name``, and ``weight`` from 1 (downbeat) to 0, to compare places by."""

    name: BeatName
    weight: Fraction


def beat_at(quarters: Fraction, time: SongTime) -> Beat:
    """How strong a moment is in the meter that holds there; the pickup is the end of a full bar."""
    bar = time.bar_at(quarters)
    meter = time.meter(bar)
    start = -meter.bar if bar == 0 else time.bar_start(bar)
    return beat_in(meter, (quarters - start) % meter.bar)


@lru_cache(maxsize=4096)
def beat_in(meter: Meter, offset: Fraction) -> Beat:
    """How strong the place ``offset`` quarter notes into a bar of this meter is."""
    weight = _weight(meter, offset)
    if offset == 0:
        return Beat("downbeat", weight)
    if offset % meter.beat:
        return Beat("offbeat", weight)
    strong = meter.beats % 4 == 0 and offset % (2 * meter.beat) == 0
    return Beat("strong beat" if strong else "weak beat", weight)


def _weight(meter: Meter, offset: Fraction) -> Fraction:
    divisions = (*_DIVISIONS.get(meter.beats, (meter.beats,)), 3 if meter.compound else 2)
    grid, weight = meter.bar, Fraction(1)
    for level in range(_FINEST):
        if offset % grid == 0:
            return weight
        grid /= divisions[level] if level < len(divisions) else 2
        weight /= 2
    return Fraction(0)

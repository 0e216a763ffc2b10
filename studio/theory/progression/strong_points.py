"""The points of a bar where a harmony can arrive.

Common practice: the first beat, and where the bar parts in two. Five beats part as 3 + 2 or 2 + 3, seven as 4 + 3 or
3 + 4; which of the two a song has is for its ear to say, so both count.
"""

from __future__ import annotations

from fractions import Fraction

from studio.music.meter import Meter
from studio.music.songtime import SongTime

_UNEVEN = {5: (2, 3), 7: (3, 4)}


def on_downbeat(at: Fraction, time: SongTime) -> bool:
    """Whether a moment, in quarter notes, is the first beat of a bar."""
    return _inside(at, time)[1] == 0


def on_strong_point(at: Fraction, time: SongTime) -> bool:
    """Whether a moment is the first beat of a bar, or where its second part begins."""
    meter, inside = _inside(at, time)
    return inside == 0 or inside in _middles(meter)


def _middles(meter: Meter) -> tuple[Fraction, ...]:
    if meter.count in _UNEVEN:
        return tuple(meter.bar * count / meter.count for count in _UNEVEN[meter.count])
    return (meter.bar / 2,)


def _inside(at: Fraction, time: SongTime) -> tuple[Meter, Fraction]:
    """The meter of the bar that a moment is in, and how far inside it the moment is; a pickup ends a full bar."""
    bar = time.bar_at(at)
    meter = time.meter(bar)
    return meter, at - (time.bar_start(bar) if bar else -meter.bar)

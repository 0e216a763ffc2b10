"""Played drums put on the grid that explains them best: swing is measured first, then taken out of the timing.

The grid is the one whose points the strokes hit best for how coarse it is: the mean error of each grid is set
against that of strokes thrown at it blindly, and a grid that leaves more than one stroke in a hundred far from any
of its points is out. So a few milliseconds of human timing do not make sixteenths out of eighths.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from studio.music.groove import Drums, Groove, Hit, Stroke, Touch
from studio.music.kit import HATS
from studio.music.meter import Meter
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.rhythm.swing import TRIPLET, Swing, measure_swing

_FAR = 0.11  # of a beat: further from the grid than human timing takes a stroke
_EARLY = Fraction(1, 8)  # of a beat: so much before a bar line a stroke may still be the downbeat's
_ACCENT, _GHOST = 0.79, 0.36  # loudness: velocities 100 and 45 of 127, common practice
_TELLING = (HATS, ("ride", "ride bell"), ("shaker",), ("tambourine",))


@dataclass(frozen=True, slots=True)
class Grid:
    """Places within a beat, as they sound (``heard``, 0 to 1) and as they are written (``written``)."""

    name: str
    heard: tuple[float, ...]
    written: tuple[Fraction, ...]


@dataclass(frozen=True, slots=True)
class Played:
    """A stretch of drums on its grid.

    ``bars`` are the numbers of the song's bars that the groove's bars are, in order; bars of another meter than
    most are left out and stand in ``left_out``. ``error`` is the root mean square distance of the strokes from
    their places, in beats. ``swing`` is None where no off-beats tell.
    """

    groove: Groove
    bars: tuple[int, ...]
    left_out: tuple[int, ...]
    grid: str
    error: float
    swing: Swing | None


def put_on_grid(drums: Drums, time: SongTime, span: Span) -> Played:
    """The whole bars of a span as a groove. Total: a span without a whole bar is one silent bar of its meter."""
    numbers = [
        bar for bar, start in time.barlines(span) if bar > 0 and start + time.meter(bar).bar <= span.end
    ]
    meters = [time.meter(bar) for bar in numbers]
    if not meters:
        return Played(Groove(time.meter(time.bar_at(span.start)), 1, ()), (), (), "", 0.0, None)
    meter = max(dict.fromkeys(meters), key=meters.count)
    bars = [bar for bar in numbers if time.meter(bar) == meter]
    placed = _placed(drums, time, bars, meter)
    swing = None if meter.compound else measure_swing(_telling(placed))
    grid, error = _best_grid([float(at % 1) for _, at in placed], meter, swing)
    groove = Groove.of(meter, len(bars), _hits(placed, grid, meter, len(bars)))
    return Played(groove, tuple(bars), tuple(sorted(set(numbers) - set(bars))), grid.name, error, swing)


_Placed = list[tuple[Stroke, Fraction]]


def _placed(drums: Drums, time: SongTime, bars: Sequence[int], meter: Meter) -> _Placed:
    """Each stroke of these bars with where it falls, in beats from the start of the first as if they were joined."""
    onsets = [stroke.onset for stroke in drums.strokes]
    early = _EARLY * meter.beat
    placed: _Placed = []
    for index, bar in enumerate(bars):
        start = time.bar_start(bar)
        first, after = (bisect_left(onsets, at - early) for at in (start, start + meter.bar))
        placed += [
            (stroke, index * meter.beats + (stroke.onset - start) / meter.beat)
            for stroke in drums.strokes[first:after]
        ]
    return placed


def _telling(placed: _Placed) -> list[float]:
    """The strokes that tell about swing: those of the busiest timekeeper, or all where none plays."""
    lines = [[float(at) for stroke, at in placed if stroke.voice in group] for group in _TELLING]
    busiest = max(lines, key=len)
    return busiest or sorted({float(at) for _, at in placed})


def _best_grid(parts: list[float], meter: Meter, swing: Swing | None) -> tuple[Grid, float]:
    grids = _grids(meter, swing)
    if not parts:
        return grids[0], 0.0
    errors = {grid.name: [_distance(part, grid) for part in parts] for grid in grids}
    fitting = [g for g in grids if sum(e > _FAR for e in errors[g.name]) <= len(parts) // 100] or grids[-1:]
    best = min(fitting, key=lambda grid: round(_rms(errors[grid.name]) * len(grid.heard), 3))
    return best, round(_rms(errors[best.name]), 4)


def _grids(meter: Meter, swing: Swing | None) -> list[Grid]:
    """The grids to try, coarse ones first, so that of two that fit alike the coarser wins."""
    divisions = (1, 3, 2, 6, 4, 12) if meter.compound else (1, 2, 3, 4, 6, 8, 12)
    grids = [_even(division) for division in divisions]
    if swing is not None and not swing.straight:
        late = swing.ratio / (1 + swing.ratio)
        triplet = TRIPLET[0] <= swing.ratio <= TRIPLET[1]
        off = Fraction(2, 3) if triplet else Fraction(1, 2)
        if swing.level == "eighths":
            grids.insert(1, Grid("swung eighths", (0.0, late), (Fraction(0), off)))
        else:
            heard = (0.0, late / 2, 0.5, 0.5 + late / 2)
            written = (Fraction(0), off / 2, Fraction(1, 2), Fraction(1, 2) + off / 2)
            grids.insert(3, Grid("swung sixteenths", heard, written))
    return grids


def _even(division: int) -> Grid:
    places = tuple(Fraction(step, division) for step in range(division))
    return Grid(f"{division} to a beat", tuple(map(float, places)), places)


def _distance(part: float, grid: Grid) -> float:
    return min(min(abs(part - place), 1 - abs(part - place)) for place in grid.heard)


def _rms(errors: list[float]) -> float:
    return sqrt(sum(error * error for error in errors) / len(errors))


def _hits(placed: _Placed, grid: Grid, meter: Meter, bars: int) -> dict[str, list[Hit]]:
    touches = _touches(placed)
    hits: dict[str, list[Hit]] = {}
    for (stroke, at), touch in zip(placed, touches, strict=True):
        nearest = _nearest(at, grid) / meter.beats
        if 0 <= nearest < bars:
            hits.setdefault(stroke.voice, []).append(Hit(nearest, touch))
    return hits


def _nearest(at: Fraction, grid: Grid) -> Fraction:
    whole, part = divmod(at, 1)
    ends = (
        (place, written)
        for place, written in zip((*grid.heard, 1.0), (*grid.written, Fraction(1)), strict=True)
    )
    return whole + min(ends, key=lambda end: abs(end[0] - float(part)))[1]


def _touches(placed: _Placed) -> list[Touch]:
    """Accents and ghost notes by loudness. A voice that is loud throughout has no accents, only loud strokes."""
    softest: dict[str, float] = {}
    for stroke, _ in placed:
        if stroke.loudness > _GHOST:
            softest[stroke.voice] = min(softest.get(stroke.voice, 1.0), stroke.loudness)
    return [
        "ghost"
        if stroke.loudness <= _GHOST
        else "accent"
        if stroke.loudness >= _ACCENT and softest[stroke.voice] < _ACCENT
        else "plain"
        for stroke, _ in placed
    ]

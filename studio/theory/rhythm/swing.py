"""Swing: how much later than half-way the off-beats fall, measured before anything is put on a grid.

The ratio is the length of the first part of a beat to the second: 1.0 is straight, 2.0 lies on the last triplet,
3.0 is dotted. Measured jazz ride cymbals range from about 1 to 3.5, less at fast tempi (A. Friberg and A. Sundström,
"Swing Ratios and Ensemble Timing in Jazz Performance", Music Perception 19, 2002; from memory).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import floor
from statistics import median, quantiles
from typing import Literal

Level = Literal["eighths", "sixteenths"]

STRAIGHT = 1.2
"""Below this ratio the off-beats count as straight: at 1.2 they are 1/22 of a beat late, about 27 ms at 100 beats a
minute, which is what playing by hand scatters anyway (common practice)."""
TRIPLET = (1.7, 2.35)
"""Ratios that musicians call triplet swing: less is light, more is hard (common practice)."""

_ON_BEAT = 0.12  # of a beat: nearer to a beat than this, a stroke belongs to the beat
_FEWEST = 4


@dataclass(frozen=True, slots=True)
class Swing:
    """How eighths (or sixteenths) are swung.

    ``ratio`` is the median of ``count`` measured off-beats, ``spread`` half of the range that the middle half of
    them covers, in the same unit.
    """

    level: Level
    ratio: float
    spread: float
    count: int
    reason: str
    sureness: float

    @property
    def straight(self) -> bool:
        return self.ratio < STRAIGHT

    @property
    def name(self) -> str:
        """Such as "straight", "light swing", "triplet swing" or "hard swing"."""
        if self.straight:
            return "straight"
        low, high = TRIPLET
        return "light swing" if self.ratio < low else "triplet swing" if self.ratio <= high else "hard swing"


def measure_swing(beats: Iterable[float]) -> Swing | None:
    """The swing of strokes that keep time, given where they fall in beats (unquantised, from any origin).

    Only beats that are divided in two tell about eighths, and half beats that are divided in two about sixteenths;
    triplets tell nothing. None when fewer than four off-beats tell.
    """
    eighths, sixteenths = [], []
    for parts in _parts_by_beat(beats):
        if len(parts) == 1 and 0.4 < parts[0] < 0.76:
            eighths.append(parts[0])
        elif any(abs(part - 0.5) < 0.07 for part in parts):
            sixteenths += [part * 2 % 1 for part in parts if abs(part - 0.5) >= 0.07 and 0.2 < part < 0.9]
    if len(sixteenths) >= _FEWEST and 2 * len(sixteenths) > len(eighths):
        return _swing("sixteenths", sixteenths)
    return _swing("eighths", eighths) if len(eighths) >= _FEWEST else None


def _parts_by_beat(beats: Iterable[float]) -> list[list[float]]:
    """Where between two beats each stroke lies, 0 to 1, grouped by beat; strokes on the beats are left out."""
    found: dict[int, list[float]] = defaultdict(list)
    for at in sorted(beats):
        whole = floor(at)
        if _ON_BEAT < at - whole < 1 - _ON_BEAT:
            found[whole].append(float(at - whole))
    return list(found.values())


def _swing(level: Level, parts: list[float]) -> Swing:
    ratios = [part / (1 - part) for part in parts]
    low, _, high = quantiles(ratios, n=4)
    ratio, spread = median(ratios), (high - low) / 2
    where = (
        "half-way"
        if ratio < STRAIGHT
        else "on the last triplet"
        if TRIPLET[0] <= ratio <= TRIPLET[1]
        else "late"
    )
    reason = f"The off-beat {level} fall {where}: {ratio:.1f} to 1 over {len(parts)} of them."
    sure = max(0.3, min(0.95, 0.95 - spread) - (0.2 if len(parts) < 2 * _FEWEST else 0))
    return Swing(level, round(ratio, 3), round(spread, 3), len(parts), reason, round(sure, 2))

"""The smallest unit that a progression repeats."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain
from math import lcm

from studio.theory.harmony.reading import Reading


@dataclass(frozen=True, slots=True)
class Loop:
    """A unit of a progression. ``readings`` are the chords of one time round, repeated ones joined.

    ``times`` is how often it is heard in full; ``length`` the quarter notes of one time; ``whole`` is false
    when the span stops part of the way through the next time.
    """

    readings: tuple[Reading, ...]
    times: int
    length: Fraction
    whole: bool = True

    @property
    def numerals(self) -> tuple[str, ...]:
        """The numerals of one time round: ("I", "V", "vi", "IV")."""
        return tuple(reading.numeral or "N.C." for reading in self.readings)


def smallest_loop(readings: Sequence[Reading]) -> Loop:
    """The shortest stretch that, repeated, makes the whole progression.

    It is sought in time, so that where chords are struck does not matter, only what sounds when; numerals are
    compared, so that a loop stays itself when the key moves. It must be heard twice in full at least; a
    progression without one is its own loop, heard once. No readings make an empty loop, heard no times.
    """
    if not readings:
        return Loop((), 0, Fraction(0))
    joined = _joined(readings)
    start, end = readings[0].at.start, readings[-1].at.end
    grain = lcm(*(at.denominator for reading in readings for at in (reading.at.start, reading.at.end)))
    numerals = [reading.numeral for reading in joined]
    starts = [int((reading.at.start - start) * grain) for reading in joined]
    total = int((end - start) * grain)
    candidates = sorted({int((reading.at.start - start) * grain) for reading in readings} - {0})
    for length in (length for length in candidates if 2 * length <= total):
        if _repeats(numerals, starts, length, total):
            times, rest = divmod(total, length)
            unit = [reading for reading in readings if reading.at.start - start < Fraction(length, grain)]
            return Loop(_joined(unit), times, Fraction(length, grain), whole=rest == 0)
    return Loop(joined, 1, end - start)


def _joined(readings: Sequence[Reading]) -> tuple[Reading, ...]:
    """The readings without the ones that say again what the one before says: I in A is not I in E."""
    kept: list[Reading] = []
    for reading in readings:
        if not kept or (kept[-1].numeral, kept[-1].key) != (reading.numeral, reading.key):
            kept.append(reading)
    return tuple(kept)


def _repeats(numerals: Sequence[str], starts: Sequence[int], length: int, total: int) -> bool:
    """Whether what sounds at each moment sounds again one ``length`` later, as far as the span goes.

    Times are whole numbers of the finest grain, since this is asked for every length that may repeat.
    """
    later = ((at, at + length) for at in starts if at + length < total)
    earlier = ((at - length, at) for at in starts if at >= length)
    return all(
        numerals[bisect_right(starts, one) - 1] == numerals[bisect_right(starts, two) - 1]
        for one, two in chain(later, earlier)
    )

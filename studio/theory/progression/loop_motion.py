"""Where a progression goes round: chords that come again are motion, and close nothing until their section ends.

A loop of four bars or less may come round exactly, or in four bars of which one changes: C G D Em, C G D D. Four bars
that stop on V and are answered by the tonic are a period instead, whatever else they share; and a V7 that ii or IV
prepares is more than a loop's way round.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, pairwise

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading
from studio.theory.progression.cadence_formulas import is_prepared
from studio.theory.progression.four_bar_phrases import BARS
from studio.theory.progression.harmonies import Harmony, acts_as_dominant, chord_of, harmonies, is_tonic
from studio.theory.progression.loops import smallest_loop

_FEWEST_ROOTS = 3

# What sounds in a bar: from where in it, on which degree, whether with a minor third, and whether over its fifth.
_Bar = list[tuple[Fraction, int, bool, bool]]


@dataclass(frozen=True, slots=True)
class LoopMotion:
    """A stretch in which a loop goes round twice at least, in ``turns`` of four bars if it has changes. ``is_vamp``:
    two chords, neither of them the tonic.
    """

    span: Span
    turns: tuple[Span, ...] = ()
    is_vamp: bool = False

    def hides(self, phrase: Span) -> bool:
        """Whether a phrase ends where the loop only goes on."""
        return self.span.start < phrase.end < self.span.end


def loop_motion(readings: Sequence[Reading], part: Span, time: SongTime) -> LoopMotion | None:
    """The loop that a part of a song begins with, None if it has none."""
    inside = [reading for reading in readings if part.contains(reading.at.start)]
    loop = smallest_loop(inside)
    if loop.times > 1 and loop.length <= BARS * time.meter(time.bar_at(part.start)).bar:
        heard = harmonies(loop.readings)
        return LoopMotion(part, is_vamp=len(heard) == 2 and not any(map(is_tonic, heard)))
    return _with_changes(inside, part, time)


def _with_changes(readings: Sequence[Reading], part: Span, time: SongTime) -> LoopMotion | None:
    """Four bars that come again with no more than one of them changed."""
    starts = [start for bar, start in time.barlines(part) if bar > 0]
    bars = [_bar(readings, Span(start, end)) for start, end in pairwise([*starts, part.end]) if start < end]
    first, times = bars[:BARS], 1
    while len(again := bars[times * BARS : (times + 1) * BARS]) == BARS and _differing(first, again) <= 1:
        times += 1
    roots = {root for bar in first for _, root, *_ in bar}
    if times < 2 or len(roots) < _FEWEST_ROOTS:
        return None
    ends = [*starts, part.end]
    turns = tuple(Span(ends[turn * BARS], ends[(turn + 1) * BARS]) for turn in range(times))
    changes = any(_differing(first, bars[turn * BARS : (turn + 1) * BARS]) for turn in range(times))
    if _closes(_heard(readings, turns[0])) or (changes and _is_period(readings, turns)):
        return None
    return LoopMotion(Span(part.start, turns[-1].end), turns)


def _bar(readings: Sequence[Reading], bar: Span) -> _Bar:
    """What sounds in a bar, each chord once."""
    sounding = [
        reading for reading in readings if reading.at.chord is not None and reading.at.span.overlaps(bar)
    ]
    told = [
        (
            max(reading.at.start - bar.start, Fraction(0)),
            reading.key.above(chord.root),
            chord.triad == "minor",
            (chord.lowest.pc - chord.root.pc) % 12 == 7,
        )
        for reading in sounding
        for chord in (chord_of(reading),)
    ]
    return [next(group) for _, group in groupby(told, key=lambda one: one[1:])]


def _differing(first: Sequence[_Bar], again: Sequence[_Bar]) -> int:
    return sum(one != two for one, two in zip(first, again, strict=True))


def _heard(readings: Sequence[Reading], turn: Span) -> tuple[Harmony, ...]:
    return harmonies([reading for reading in readings if turn.contains(reading.at.start)])


def _closes(heard: Sequence[Harmony]) -> bool:
    """Whether a time round ends with V–I, as a phrase that is sung again does."""
    return len(heard) > 1 and is_tonic(heard[-1]) and acts_as_dominant(heard[-2].fullest, heard[-1].key)


def _is_period(readings: Sequence[Reading], turns: Sequence[Span]) -> bool:
    """Whether the first time round stops on V, and that V is prepared as for a close, or a later time, or what comes
    after the last, ends the part on the tonic.
    """
    first, *later = (_heard(readings, turn) for turn in turns)
    if not first or not acts_as_dominant(first[-1].fullest, first[-1].key):
        return False
    if first[-1].fullest.seventh == "♭7" and is_prepared(first):
        return True
    ends = [heard[-1] for heard in (*later, harmonies(readings)) if heard]
    return any(is_tonic(one) for one in ends)

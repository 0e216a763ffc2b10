"""Harmonic sequences: a pattern of roots that comes again, transposed.

A pattern of one root step counts when it has a name and four chords move by falling fifths (vi–ii–V–I), or by another
step if they are the same kind of chord, or else five; in a loop, a chain of another step lies inside one time round. It
ends with the tonic that its V brings, unless it goes on for three chords at least. A longer pattern counts when it is
heard at least two and a half times, each time as long, or twice if it is ii–V, whose chords say by themselves that it
is a pattern. The names are those of the trade and of handbooks; a longer pattern without a name counts only if full
chords are moved exactly, and is called by how far they move. Steps are compared as letters (diatonic: qualities follow
the key) and as half steps (real: the same chords, moved).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.progression.harmonies import Harmony, acts_as_dominant, harmonies
from studio.theory.progression.loops import Loop, smallest_loop
from studio.theory.progression.sequence_names import (
    NAMES,
    SequenceKind,
    half_steps,
    is_two_five,
    kind_of,
    letter_steps,
    letters,
    name_of,
    reason_for,
)

_LONGEST_PATTERN = 4
_CHAIN = 4  # chords that make a chain of one root step
_FALLING_FIFTH = (3,)
_GOES_ON = 3  # chords after the tonic that make a chain go on through it


@dataclass(frozen=True, slots=True)
class HarmonicSequence:
    """A sequence. ``pattern`` is how many chords make the pattern, ``times`` how often it is heard (for a
    chain of one step, how many steps), ``numerals`` all its harmonies. "diatonic" keeps the key and changes
    qualities, "real" keeps the qualities, "mixed" keeps neither throughout.
    """

    name: str
    kind: SequenceKind
    span: Span
    pattern: int
    times: int
    numerals: tuple[str, ...]
    reason: str
    sureness: float
    runner_up: str = ""


def find_sequences(readings: Sequence[Reading]) -> tuple[HarmonicSequence, ...]:
    """The sequences of a progression in their order; none overlaps another by more than one chord."""
    chords = harmonies(readings)
    found: list[tuple[int, int, int]] = []
    loop = smallest_loop(readings)
    start = 0
    while start < len(chords) - 1:
        best = max(_candidates(chords, start, loop), default=None, key=lambda way: _merit(chords, way))
        if best is None:
            start += 1
            continue
        found.append(best)
        start = best[1] - 1
    return tuple(_sequence(chords[first:end], pattern) for first, end, pattern in found)


def longest_sequence(readings: Sequence[Reading]) -> HarmonicSequence | None:
    """The sequence with the most chords, the earlier of equals; None if there is none."""
    return max(find_sequences(readings), key=lambda sequence: len(sequence.numerals), default=None)


def _merit(chords: Sequence[Harmony], way: tuple[int, int, int]) -> tuple[int, bool, int]:
    """The longest wins; a chain of ii–Vs is one, though its roots may fall by fifths throughout."""
    first, end, pattern = way
    return end - first, pattern == 2 and is_two_five(chords[first:end]), -pattern


def _candidates(chords: Sequence[Harmony], start: int, loop: Loop) -> list[tuple[int, int, int]]:
    """(first, end, pattern length) of each sequence that begins at ``start``; the end is not in it."""
    found = []
    for pattern in range(1, _LONGEST_PATTERN + 1):
        for way in (letters, half_steps):
            end = _reach(chords, start, pattern, way)
            if pattern == 1:
                end = _cut_at_home(chords, start, end)
            heard = chords[start:end]
            if not _is_enough(heard, pattern) or not _is_heard_as_one(heard, pattern):
                continue
            if pattern > 1 or not _is_chance(heard, loop):
                found.append((start, end, pattern))
    return found


def _reach(
    chords: Sequence[Harmony], start: int, pattern: int, way: Callable[[Harmony, Harmony], int]
) -> int:
    """How far the pattern of steps that starts here goes on."""
    if start + pattern >= len(chords):
        return start
    model = [way(chords[start + place], chords[start + place + 1]) for place in range(pattern)]
    if sum(model) % (7 if way is letters else 12) == 0:
        return start
    if _is_shorter(model) and not is_two_five(chords[start : start + 4]):
        return start
    end = start + pattern + 1
    while end < len(chords) and way(chords[end - 1], chords[end]) == model[(end - 1 - start) % pattern]:
        end += 1
    return end


def _cut_at_home(chords: Sequence[Harmony], start: int, end: int) -> int:
    """The end of a chain, or its first tonic that V brings, where the chain only begins or has all but ended."""
    for place in range(start + 1, end):
        chord, key = chords[place], chords[place].key
        closes = key.above(chord.first.root) == 0 and acts_as_dominant(chords[place - 1].fullest, key)
        if closes and (place == start + 1 or end - 1 - place < _GOES_ON):
            return place + 1
    return end


def _is_chance(chords: Sequence[Harmony], loop: Loop) -> bool:
    """Whether a chain of any step but the falling fifth is short and uneven, or only joins two times round a loop."""
    if letter_steps(chords, 1) == _FALLING_FIFTH:
        return False
    if len(chords) <= _CHAIN and kind_of(chords, 1) != "real":
        return True
    start = loop.readings[0].at.start
    first, last = (chord.span.start - start for chord in (chords[0], chords[-1]))
    again = (first // loop.length + 1) * loop.length
    return loop.times > 1 and last > again


def _is_heard_as_one(chords: Sequence[Harmony], pattern: int) -> bool:
    """Whether a repetition of steps is one for the ear: named or exact, and each time as long."""
    if pattern == 1:
        tritones = (pair for pair in pairwise(chords) if half_steps(*pair) == 6)
        inside = all(chord.readings[0].kind == "diatonic" for pair in tritones for chord in pair)
        return letter_steps(chords, pattern) in NAMES and inside
    if pattern == 2 and is_two_five(chords):
        return True
    as_long = all(
        one.span.length == two.span.length for one, two in zip(chords, chords[pattern:-1], strict=False)
    )
    full = all(chord.fullest.triad != "power" for chord in chords)
    named = letter_steps(chords, pattern) in NAMES
    return as_long and (named or (full and kind_of(chords, pattern) == "real"))


def _is_shorter(model: Sequence[int]) -> bool:
    """Whether a pattern is itself a shorter one, repeated."""
    return len(model) > 1 and any(
        list(model) == list(model[:part]) * (len(model) // part)
        for part in range(1, len(model))
        if len(model) % part == 0
    )


def _is_enough(chords: Sequence[Harmony], pattern: int) -> bool:
    if pattern == 1:
        return len(chords) >= _CHAIN
    if pattern == 2 and len(chords) >= 4 and is_two_five(chords):
        return True
    return len(chords) >= max(2 * pattern + (pattern + 1) // 2, 5)


def _sequence(chords: Sequence[Harmony], pattern: int) -> HarmonicSequence:
    kind = kind_of(chords, pattern)
    times = len(chords) - 1 if pattern == 1 else len(chords) // pattern
    sureness = 0.9 if times > 2 else 0.75
    degrees = [chord.key.above(chord.first.root) for chord in chords]
    return HarmonicSequence(
        name=name_of(chords, pattern),
        kind=kind,
        span=Span(chords[0].span.start, chords[-1].span.end),
        pattern=pattern,
        times=times,
        numerals=tuple(chord.numeral for chord in chords),
        reason=reason_for(chords, pattern, kind),
        sureness=sureness,
        runner_up="circle progression" if degrees == [9, 2, 7, 0] else "",
    )

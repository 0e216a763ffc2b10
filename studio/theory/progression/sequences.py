"""Harmonic sequences: a pattern of roots that comes again, transposed.

A pattern of one root step counts when four chords follow it (vi–ii–V–I is a chain of falling fifths) and it has
a name; it ends with the tonic that its V brings, unless it goes on for three chords at least. A longer pattern
counts when it is heard at least two and a half times, each time as long, or twice if it is ii–V, whose chords say
by themselves that it is a pattern. The names are those of the trade and of handbooks; a longer pattern without a
name counts only if full chords are moved exactly, and is called by how far they move. Steps are compared as letters
(diatonic: qualities follow the key) and as half steps (real: the same chords, moved).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from studio.music.chord import Chord
from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import half_steps_words
from studio.theory.progression.cadence_formulas import acts_as_dominant
from studio.theory.progression.harmonies import Harmony, harmonies

SequenceKind = Literal["diatonic", "real", "mixed"]

_LONGEST_PATTERN = 4
_CHAIN = 4  # chords that make a chain of one root step
_GOES_ON = 3  # chords after the tonic that make a chain go on through it

# Names by the letters that each root lies above the one before, 0 to 6, through one pattern.
_NAMES = {
    (3,): "falling fifths",
    (4,): "rising fifths",
    (5,): "chain of falling thirds",
    (2,): "chain of rising thirds",
    (4, 1): "falling thirds",
    (5, 3): "ascending 5–6",
    (3, 5): "rising by step, each chord by its dominant",
    (4, 4): "rising fifths",
}


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
    start = 0
    while start < len(chords) - 1:
        best = max(_candidates(chords, start), default=None, key=lambda way: _merit(chords, way))
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
    return end - first, pattern == 2 and _is_two_five(chords[first:end]), -pattern


def _candidates(chords: Sequence[Harmony], start: int) -> list[tuple[int, int, int]]:
    """(first, end, pattern length) of each sequence that begins at ``start``; the end is not in it."""
    found = []
    for pattern in range(1, _LONGEST_PATTERN + 1):
        for way in (_letters, _half_steps):
            end = _reach(chords, start, pattern, way)
            if pattern == 1:
                end = _cut_at_home(chords, start, end)
            heard = chords[start:end]
            if _is_enough(heard, pattern) and _is_heard_as_one(heard, pattern):
                found.append((start, end, pattern))
    return found


def _reach(
    chords: Sequence[Harmony], start: int, pattern: int, way: Callable[[Harmony, Harmony], int]
) -> int:
    """How far the pattern of steps that starts here goes on."""
    if start + pattern >= len(chords):
        return start
    model = [way(chords[start + place], chords[start + place + 1]) for place in range(pattern)]
    if sum(model) % (7 if way is _letters else 12) == 0:
        return start
    if _is_shorter(model) and not _is_two_five(chords[start : start + 4]):
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


def _is_heard_as_one(chords: Sequence[Harmony], pattern: int) -> bool:
    """Whether a repetition of steps is one for the ear: named or exact, and each time as long."""
    if pattern == 1:
        tritones = (pair for pair in pairwise(chords) if _half_steps(*pair) == 6)
        inside = all(chord.readings[0].kind == "diatonic" for pair in tritones for chord in pair)
        return _letter_steps(chords, pattern) in _NAMES and inside
    if pattern == 2 and _is_two_five(chords):
        return True
    as_long = all(
        one.span.length == two.span.length for one, two in zip(chords, chords[pattern:-1], strict=False)
    )
    full = all(chord.fullest.triad != "power" for chord in chords)
    named = _letter_steps(chords, pattern) in _NAMES
    return as_long and (named or (full and _kind(chords, pattern) == "real"))


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
    if pattern == 2 and len(chords) >= 4 and _is_two_five(chords):
        return True
    return len(chords) >= max(2 * pattern + (pattern + 1) // 2, 5)


def _is_two_five(chords: Sequence[Harmony]) -> bool:
    """Whether the chords are ii V ii V …, each pair on its own."""
    pairs = list(zip(chords[::2], chords[1::2], strict=False))
    return len(pairs) > 1 and all(
        one.fullest.triad in ("minor", "diminished")
        and two.fullest.triad == "major"
        and (two.fullest.seventh == "♭7" or two.first.triad == "suspended")
        and _half_steps(one, two) == 5
        for one, two in pairs
    )


def _letters(one: Harmony, two: Harmony) -> int:
    return (two.first.root.step - one.first.root.step) % 7


def _half_steps(one: Harmony, two: Harmony) -> int:
    return (two.first.root.pc - one.first.root.pc) % 12


def _sequence(chords: Sequence[Harmony], pattern: int) -> HarmonicSequence:
    kind = _kind(chords, pattern)
    times = len(chords) - 1 if pattern == 1 else len(chords) // pattern
    name, sureness = _name(chords, pattern), 0.9 if times > 2 else 0.75
    degrees = [chord.key.above(chord.first.root) for chord in chords]
    return HarmonicSequence(
        name=name,
        kind=kind,
        span=Span(chords[0].span.start, chords[-1].span.end),
        pattern=pattern,
        times=times,
        numerals=tuple(chord.numeral for chord in chords),
        reason=_reason(chords, pattern, kind),
        sureness=sureness,
        runner_up="circle progression" if degrees == [9, 2, 7, 0] else "",
    )


def _kind(chords: Sequence[Harmony], pattern: int) -> SequenceKind:
    """Real if chords a pattern apart are the same chord moved by the same half steps."""
    apart = list(zip(chords, chords[pattern:], strict=False))
    moved = {_half_steps(one, two) for one, two in apart}
    if len(moved) == 1 and all(_build(one.fullest) == _build(two.fullest) for one, two in apart):
        return "real"
    inside = all(reading.kind == "diatonic" for chord in chords for reading in chord.readings)
    return "diatonic" if inside else "mixed"


def _build(chord: Chord) -> tuple[str, str]:
    return chord.triad, chord.seventh


def _name(chords: Sequence[Harmony], pattern: int) -> str:
    if pattern == 2 and _is_two_five(chords):
        return f"ii–V chain {_direction(_half_steps(chords[0], chords[2]))}"
    fifths = pattern == 1 and all(_half_steps(one, two) == 5 for one, two in pairwise(chords))
    if fifths and all(_build(chord.fullest) == ("major", "♭7") for chord in chords[:-1]):
        return "chain of dominants"
    if fifths:
        return "falling fifths"
    return (
        _NAMES.get(_letter_steps(chords, pattern))
        or f"pattern of {pattern} chords {_direction(_half_steps(chords[0], chords[pattern]))}"
    )


def _letter_steps(chords: Sequence[Harmony], pattern: int) -> tuple[int, ...]:
    """The letters of each root above the one before, through one pattern."""
    return tuple(_letters(chords[place], chords[place + 1]) for place in range(pattern))


def _direction(half_steps: int) -> str:
    """How a pattern moves: "falling by whole step", whichever way is nearer."""
    up = half_steps <= 6
    step = half_steps_words(half_steps if up else 12 - half_steps).removeprefix("a ")
    return f"{'rising' if up else 'falling'} by {step}"


def _reason(chords: Sequence[Harmony], pattern: int, kind: SequenceKind) -> str:
    manner = {
        "diatonic": "inside the key",
        "real": "each time with the same chords",
        "mixed": "with changes of quality",
    }[kind]
    if pattern == 1:
        return f"Each root from {chords[0].first.root} to {chords[-1].first.root} moves as the one before, {manner}."
    model = "–".join(str(chord.first) for chord in chords[:pattern])
    return f"{model} comes again from {chords[pattern].first}, {manner}."

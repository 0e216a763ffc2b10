"""What a harmonic sequence is called, and how its chords move. The names are those of the trade and of handbooks."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from studio.music.chord import Chord
from studio.theory.plain_english import half_steps_words
from studio.theory.progression.harmonies import Harmony

SequenceKind = Literal["diatonic", "real", "mixed"]

# Names by the letters that each root lies above the one before, 0 to 6, through one pattern.
NAMES = {
    (3,): "falling fifths",
    (4,): "rising fifths",
    (5,): "chain of falling thirds",
    (2,): "chain of rising thirds",
    (4, 1): "falling thirds",
    (5, 3): "ascending 5–6",
    (3, 5): "rising by step, each chord by its dominant",
    (4, 4): "rising fifths",
}


def letters(one: Harmony, two: Harmony) -> int:
    """How many letters one root lies above another, 0 to 6."""
    return (two.first.root.step - one.first.root.step) % 7


def half_steps(one: Harmony, two: Harmony) -> int:
    """How many half steps one root lies above another, 0 to 11."""
    return (two.first.root.pc - one.first.root.pc) % 12


def letter_steps(chords: Sequence[Harmony], pattern: int) -> tuple[int, ...]:
    """The letters of each root above the one before, through one pattern."""
    return tuple(letters(chords[place], chords[place + 1]) for place in range(pattern))


def is_two_five(chords: Sequence[Harmony]) -> bool:
    """Whether the chords are ii V ii V …, each pair on its own."""
    pairs = list(zip(chords[::2], chords[1::2], strict=False))
    return len(pairs) > 1 and all(
        one.fullest.triad in ("minor", "diminished")
        and two.fullest.triad == "major"
        and (two.fullest.seventh == "♭7" or two.first.triad == "suspended")
        and half_steps(one, two) == 5
        for one, two in pairs
    )


def kind_of(chords: Sequence[Harmony], pattern: int) -> SequenceKind:
    """Real if chords a pattern apart are the same chord moved by the same half steps."""
    apart = list(zip(chords, chords[pattern:], strict=False))
    moved = {half_steps(one, two) for one, two in apart}
    if len(moved) == 1 and all(_build(one.fullest) == _build(two.fullest) for one, two in apart):
        return "real"
    inside = all(reading.kind == "diatonic" for chord in chords for reading in chord.readings)
    return "diatonic" if inside else "mixed"


def _build(chord: Chord) -> tuple[str, str]:
    return chord.triad, chord.seventh


def name_of(chords: Sequence[Harmony], pattern: int) -> str:
    """The name of a sequence: "falling fifths", "ii–V chain falling by whole step"."""
    if pattern == 2 and is_two_five(chords):
        return f"ii–V chain {_direction(half_steps(chords[0], chords[2]))}"
    fifths = pattern == 1 and all(half_steps(one, two) == 5 for one, two in pairwise(chords))
    if fifths and all(_build(chord.fullest) == ("major", "♭7") for chord in chords[:-1]):
        return "chain of dominants"
    if fifths:
        return "falling fifths"
    return (
        NAMES.get(letter_steps(chords, pattern))
        or f"pattern of {pattern} chords {_direction(half_steps(chords[0], chords[pattern]))}"
    )


def _direction(half_steps: int) -> str:
    """How a pattern moves: "falling by whole step", whichever way is nearer."""
    up = half_steps <= 6
    step = half_steps_words(half_steps if up else 12 - half_steps).removeprefix("a ")
    return f"{'rising' if up else 'falling'} by {step}"


def reason_for(chords: Sequence[Harmony], pattern: int, kind: SequenceKind) -> str:
    """Why it is one, in a sentence."""
    manner = {
        "diatonic": "inside the key",
        "real": "each time with the same kind of chord" if pattern == 1 else "moved exactly",
        "mixed": "with changes of quality",
    }[kind]
    if pattern == 1:
        return f"Each root from {chords[0].first.root} to {chords[-1].first.root} moves as the one before, {manner}."
    model = "–".join(str(chord.first) for chord in chords[:pattern])
    return f"{model} comes again from {chords[pattern].first}, {manner}."

"""Shapes for a row of chords, so that the hand moves little from one to the next.

Each chord keeps one shape all along, as a player would learn it. Starting from everyone's favourite, each chord in
turn takes the shape that suits it and its neighbours best, until none changes: each change lowers the sum, so this
ends. It finds a good choice and not always the best one; a player would not search further either.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from studio.music.chord import Chord
from studio.theory.fretboard.search import FoundShape
from studio.theory.fretboard.shape import Shape

SHIFT_PER_FRET = 0.12
"""To move the hand along the neck, in the points of ``playable``: the further, the more easily it misses."""

KEPT = 0.15
"""What a finger saves that stays where it is: it guides the others."""


def shapes_together(
    chords: Sequence[Chord], possible: Mapping[Chord, Sequence[FoundShape]]
) -> dict[Chord, Shape]:
    """One of its possible shapes for each chord; ``chords`` are as they follow one another, some again and again.

    ``possible`` has at least one shape for each chord, the most playable first.

    >>> from studio.music.chord_reader import read_chord
    >>> from studio.theory.fretboard.named_tunings import STANDARD
    >>> from studio.theory.fretboard.search import find_shapes
    >>> row = [read_chord(text) for text in ("C", "C7", "F", "C")]
    >>> found = shapes_together(row, {chord: find_shapes(chord, STANDARD, most=5) for chord in row})
    >>> [shape.text for shape in found.values()]
    ['x32010', 'x32310', '133211']
    """
    chosen = {chord: possible[chord][0] for chord in chords}
    pairs = [(one, two) for one, two in pairwise(chords) if one != two]
    changed = True
    while changed:
        changed = False
        for chord in chosen:
            best = min(possible[chord], key=lambda one: _sum(one, chord, chosen, pairs, chords.count(chord)))
            changed = changed or best != chosen[chord]
            chosen[chord] = best
    return {chord: one.shape for chord, one in chosen.items()}


def _sum(
    one: FoundShape,
    chord: Chord,
    chosen: Mapping[Chord, FoundShape],
    pairs: Sequence[tuple[Chord, Chord]],
    times: int,
) -> float:
    """What a shape costs each time that its chord comes, and the moves to it and away from it."""
    others = [chosen[two if first == chord else first] for first, two in pairs if chord in (first, two)]
    return round(times * one.cost + sum(move(one.shape, other.shape) for other in others), 6)


def move(one: Shape, two: Shape) -> float:
    """What it costs to get from one shape to another, either way; less than nothing where fingers stay down."""
    kept = {
        finger
        for finger, fret, other_finger, other_fret in zip(
            one.fingers, one.frets, two.fingers, two.frets, strict=True
        )
        if finger and finger == other_finger and fret == other_fret
    }
    hands = [hand for shape in (one, two) if (hand := _hand(shape))]
    return SHIFT_PER_FRET * (max(hands, default=0) - min(hands, default=0)) - KEPT * len(kept)


def _hand(shape: Shape) -> int:
    """The fret under the index finger; 0 where nothing is pressed or nobody said with which fingers."""
    pressed = zip(shape.frets, shape.fingers, strict=False)
    return min((max(fret - finger + 1, 1) for fret, finger in pressed if fret and finger), default=0)

"""Loops of chords as the search for keys needs them: where one goes round, and where it begins again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from studio.music.chord import Chord

_LONGEST = 8  # chords in the longest loop that is looked for


@dataclass(slots=True)
class Loops:
    """Numbers of chords: ``inside`` a loop but not at its very start; the first of each time ``round``; and
    those that are heard ``again``, the second time round or later."""

    inside: set[int] = field(default_factory=set)
    round: set[int] = field(default_factory=set)
    again: set[int] = field(default_factory=set)


def find_loops(chords: Sequence[Chord | None], openings: Sequence[int]) -> Loops:
    """Groups of two to eight chords, not all the same, that are played twice or more in a row.

    ``openings`` are the numbers of the chords that open a section, the first chord among them; each section is
    searched for itself, since a loop begins where its section does. Where a loop of four is also one of eight,
    it is one of four. A section of three or four different chords and no more is taken for a loop written once.
    """
    loops = Loops()
    edges = [*openings, len(chords)]
    for start, end in zip(openings, edges[1:], strict=True):
        if end - start in (3, 4) and len(set(chords[start:end])) == end - start:
            loops.inside.update(range(start + 1, end))
        for size in range(2, _LONGEST + 1):
            _mark(chords, start, end, size, loops)
    return loops


def _mark(chords: Sequence[Chord | None], start: int, end: int, size: int, loops: Loops) -> None:
    """Mark the loops of one size between two chords."""
    here = start
    while here + 2 * size <= end:
        again = here
        while again + size < end and chords[again] == chords[again + size]:
            again += 1
        if again - here >= size and len(set(chords[here : here + size])) > 1:
            stretch = range(here, again + size)
            if loops.inside.isdisjoint(stretch):
                loops.round.update(stretch[::size])
                loops.inside.update(stretch[1:])
                loops.again.update(stretch[size:])
        here = again + 1

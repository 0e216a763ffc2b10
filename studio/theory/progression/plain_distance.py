"""How far a progression is from a plain form: an edit distance whose costs are musical.

Six weights, judgements of ours, and their order is what matters:

- another third on the same root (iv for IV, III for iii) 0.5: the bass and the function stay;
- an applied chord put in before the chord that it leads to 0.5: ornament;
- neighbours exchanged 0.55: the same chords;
- a chord that shares two notes (ii for IV, vi for I, vii° for V), or the tritone substitute 0.6: the function
  stays and the root moves;
- a chord put in or left out 0.9;
- any other chord instead 1.2: less than leaving out and putting in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from studio.theory.progression.known_loops import Step

ChangeKind = Literal["third", "relative", "tritone", "other", "inserted", "omitted", "exchanged"]

THIRD, APPLIED, EXCHANGED, RELATED, ADDED, OTHER = 0.5, 0.5, 0.55, 0.6, 0.9, 1.2
_TRIADS = {"major": (0, 4, 7), "minor": (0, 3, 7), "diminished": (0, 3, 6), "augmented": (0, 4, 8)}


@dataclass(frozen=True, slots=True)
class Edit:
    """One difference: at ``form`` in the plain form (−1 for an insertion), at ``heard`` in the music (−1 for
    an omission). An exchange stands at the first of its two places.
    """

    kind: ChangeKind
    form: int
    heard: int


def substitution(plain: Step, heard: Step) -> tuple[float, ChangeKind | None]:
    """What it costs to hear one chord in place of another, and the kind of change; 0 and None if they agree."""
    if plain == heard or (plain.above == heard.above and heard.triad not in _TRIADS):
        return 0.0, None
    if plain.above == heard.above:
        return THIRD, "third"
    if len(_pcs(plain) & _pcs(heard)) >= 2:
        return RELATED, "relative"
    if (plain.above - heard.above) % 12 == 6 and plain.triad == heard.triad == "major":
        return RELATED, "tritone"
    return OTHER, "other"


def distance(
    plain: Sequence[Step], heard: Sequence[Step], applied: Sequence[bool]
) -> tuple[float, tuple[Edit, ...]]:
    """The cheapest way from a plain form to what is heard: its cost and its edits, in order.

    ``applied`` tells for each heard chord whether it is the applied dominant of the chord that follows.
    """
    table: list[list[tuple[float, tuple[Edit, ...]]]] = []
    for place in range(len(plain) + 1):
        row: list[tuple[float, tuple[Edit, ...]]] = []
        for spot in range(len(heard) + 1):
            row.append(_cheapest(plain, heard, applied, table, row, place, spot))
        table.append(row)
    return table[-1][-1]


def _cheapest(
    plain: Sequence[Step],
    heard: Sequence[Step],
    applied: Sequence[bool],
    table: Sequence[Sequence[tuple[float, tuple[Edit, ...]]]],
    row: Sequence[tuple[float, tuple[Edit, ...]]],
    place: int,
    spot: int,
) -> tuple[float, tuple[Edit, ...]]:
    """The best way to the first ``place`` chords of the form and the first ``spot`` that are heard."""
    if place == 0 and spot == 0:
        return 0.0, ()
    ways: list[tuple[float, tuple[Edit, ...]]] = []
    if place and spot:
        cost, kind = substitution(plain[place - 1], heard[spot - 1])
        before, edits = table[place - 1][spot - 1]
        ways.append((before + cost, edits if kind is None else (*edits, Edit(kind, place - 1, spot - 1))))
    if place > 1 and spot > 1 and plain[place - 2] == heard[spot - 1] and plain[place - 1] == heard[spot - 2]:
        before, edits = table[place - 2][spot - 2]
        ways.append((before + EXCHANGED, (*edits, Edit("exchanged", place - 2, spot - 2))))
    if spot:
        before, edits = row[spot - 1]
        ways.append(
            (before + (APPLIED if applied[spot - 1] else ADDED), (*edits, Edit("inserted", -1, spot - 1)))
        )
    if place:
        before, edits = table[place - 1][spot]
        ways.append((before + ADDED, (*edits, Edit("omitted", place - 1, -1))))
    return min(ways, key=lambda way: (way[0], len(way[1])))


def _pcs(step: Step) -> frozenset[int]:
    return frozenset((step.above + tone) % 12 for tone in _TRIADS.get(step.triad, (0, 7)))

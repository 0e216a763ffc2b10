"""The readings of a whole chart at once: the cheapest path through keys and readings.

Each chord admits a few readings in each key (``candidates``), each with a cost; setting one after another
costs something too (``joining``). The path that costs least in all is found by dynamic programming (Viterbi),
forward and backward, so that for each chord the best path through any other reading or key is known as well:
the lead over the next best says how sure the reading is.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from studio.music.chart import Chart
from studio.music.key import Key
from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.search import Costs, passes, way_back
from studio.theory.harmony.standing import Standing
from studio.theory.harmony.trellis import Trellis


class KeyChoice(Protocol):
    """What is known of the keys of a chart. ``place`` counts its chords; N.C. is never asked about.

    A chord that is struck again in the same keys is read once, and no key changes inside it: its evidence is
    that of all its places together, its weight the largest of theirs.
    """

    def keys_at(self, place: int) -> Sequence[Key]:
        """The keys that may hold there, at least one."""
        ...

    def weight(self, place: int) -> float:
        """What the costs of the readings there are multiplied by, 1 for as they are."""
        ...

    def evidence(self, place: int, key: Key) -> float:
        """What it costs to hear the chord in a key, whatever its reading."""
        ...

    def change_cost(self, before: Key, after: Key) -> float:
        """What it costs to change from one key to another; asked once for each pair."""
        ...

    def change_factor(self, place: int) -> float:
        """What that is multiplied by for a change between this chord and the sounding one before it."""
        ...


class WrittenKeys:
    """Keys that somebody has written: one at each place, and nothing to choose.

    ``keys`` says from which quarter note on each holds, ascending; the first also covers what is before.
    """

    def __init__(self, chart: Chart, keys: Sequence[tuple[Fraction, Key]]) -> None:
        starts = [start for start, _ in keys]
        self._keys = [(keys[max(bisect_right(starts, at.start) - 1, 0)][1],) for at in chart.chords]

    def keys_at(self, place: int) -> Sequence[Key]:
        return self._keys[place]

    def weight(self, place: int) -> float:
        return 1.0

    def evidence(self, place: int, key: Key) -> float:
        return 0.0

    def change_cost(self, before: Key, after: Key) -> float:
        return 0.0

    def change_factor(self, place: int) -> float:
        return 0.0


@dataclass(frozen=True, slots=True)
class Step:
    """One chord on the best path.

    ``runner_up`` is the next best reading in the same key that is written another way, on the best path that
    goes through it, and ``margin`` what that path costs more; None and infinity where there is none.
    ``key_costs`` holds for each key the cost of the best whole path that is in that key here.
    """

    place: int
    standing: Standing
    key: Key
    candidate: Candidate
    runner_up: Candidate | None
    margin: float
    key_costs: Mapping[Key, float]


@dataclass(frozen=True, slots=True)
class Path:
    """The best path: a step for each chord of the chart, None for N.C., and what it costs in all."""

    steps: tuple[Step | None, ...]
    cost: float


def best_path(chart: Chart, choice: KeyChoice) -> Path:
    """The keys and readings of a chart that cost least together; ``choice`` says what is known of the keys."""
    steps: list[Step | None] = [None] * len(chart.chords)
    trellis = Trellis(chart, choice)
    if not trellis.members:
        return Path(tuple(steps), 0.0)
    forward, through = passes(trellis)
    for stop, (key, chosen) in enumerate(way_back(trellis, forward, through[-1])):
        for place, standing in trellis.members[stop]:
            steps[place] = _step(trellis, stop, place, standing, key, chosen, through[stop])
    return Path(tuple(steps), min(min(costs) for costs in through[0].values()))


def _step(
    trellis: Trellis, stop: int, place: int, standing: Standing, key: int, chosen: int, through: Costs
) -> Step:
    admitted, costs = trellis.candidates(stop, key), through[key]
    written = admitted[chosen].written
    others = [other for other, candidate in enumerate(admitted) if candidate.written != written]
    second = min(others, key=lambda other: costs[other], default=None)
    return Step(
        place=place,
        standing=standing,
        key=trellis.keys[key],
        candidate=admitted[chosen],
        runner_up=None if second is None else admitted[second],
        margin=float("inf") if second is None else costs[second] - costs[chosen],
        key_costs={trellis.keys[other]: min(values) for other, values in through.items()},
    )

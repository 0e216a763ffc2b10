"""What the search for the best path runs on: the readings of each chord in each key, and all their costs.

The search handles numbers only. It counts stops: the sounding chords of the chart, where a chord that is struck
again makes one stop with itself, so that it keeps its reading. And it counts the different keys. Readings and
the costs between them are worked out once for each chord in its surroundings and key, since songs repeat.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from studio.music.chart import Chart
from studio.music.key import Key
from studio.theory.harmony.candidate import Candidate
from studio.theory.harmony.candidates import candidates
from studio.theory.harmony.joining import join_cost
from studio.theory.harmony.standing import Standing, standings

if TYPE_CHECKING:
    from studio.theory.harmony.path import KeyChoice

Row = list[float]


class Trellis:
    """The costs along a chart.

    For each stop: ``members`` are its chords with their places in the chart, ``allowed`` the numbers of the keys
    that may hold, ``weights`` the factor on the costs of readings (the largest among its chords), ``own`` the
    cost of each candidate in each key by itself with the evidence of all its chords, and ``factors`` what a
    change of key just before it is multiplied by.
    """

    def __init__(self, chart: Chart, choice: KeyChoice) -> None:
        self.members = _stops(chart, choice)
        self._firsts = [members[0][1] for members in self.members]
        numbers: dict[Standing, int] = {}
        self._kinds = [numbers.setdefault(standing, len(numbers)) for standing in self._firsts]
        keys: dict[Key, int] = {}
        self.allowed = [
            tuple(keys.setdefault(key, len(keys)) for key in choice.keys_at(members[0][0]))
            for members in self.members
        ]
        self.keys = tuple(keys)
        self.weights = [max(choice.weight(place) for place, _ in members) for members in self.members]
        self.factors = [choice.change_factor(members[0][0]) for members in self.members]
        self._changes = [
            [0.0 if one == two else choice.change_cost(one, two) for one in self.keys] for two in self.keys
        ]
        self._admitted: dict[tuple[int, int], tuple[Candidate, ...]] = {}
        self._joins: dict[tuple[int, int, int], list[Row]] = {}
        self._leaving: dict[tuple[int, int, int], Row] = {}
        self.own = [self._own_costs(stop, choice) for stop in range(len(self.members))]

    def candidates(self, stop: int, key: int) -> tuple[Candidate, ...]:
        """The readings of a stop in a key."""
        at = (self._kinds[stop], key)
        if at not in self._admitted:
            self._admitted[at] = candidates(self._firsts[stop], self.keys[key])
        return self._admitted[at]

    def changes(self, key: int) -> Row:
        """What it costs to come to a key, by the number of the key before."""
        return self._changes[key]

    def joins(self, stop: int, key: int) -> list[Row]:
        """Costs of going on in the key: a row for each candidate of the stop, over those of the next."""
        at = (self._kinds[stop], self._kinds[stop + 1], key)
        if at not in self._joins:
            following, home = self._firsts[stop + 1], self.keys[key]
            rights = self.candidates(stop + 1, key)
            self._joins[at] = [
                [join_cost(left, right, following, home) for right in rights]
                for left in self.candidates(stop, key)
            ]
        return self._joins[at]

    def leaving(self, stop: int, key: int) -> Row:
        """Costs of going on in another key, or of ending, from each candidate of the stop."""
        last = stop + 1 == len(self.members)
        at = (self._kinds[stop], -1 if last else self._kinds[stop + 1], key)
        if at not in self._leaving:
            following, home = None if last else self._firsts[stop + 1], self.keys[key]
            self._leaving[at] = [
                join_cost(left, None, following, home) for left in self.candidates(stop, key)
            ]
        return self._leaving[at]

    def _own_costs(self, stop: int, choice: KeyChoice) -> dict[int, Row]:
        weight = self.weights[stop]
        places = [place for place, _ in self.members[stop]]
        costs: dict[int, Row] = {}
        for key in self.allowed[stop]:
            heard = sum(choice.evidence(place, self.keys[key]) for place in places)
            costs[key] = [heard + weight * candidate.cost for candidate in self.candidates(stop, key)]
        return costs


def _stops(chart: Chart, choice: KeyChoice) -> list[list[tuple[int, Standing]]]:
    """The sounding chords with their places, those together that repeat one another in the same keys."""
    stops: list[list[tuple[int, Standing]]] = []
    for place, standing in enumerate(standings(chart.chords)):
        if standing is None:
            continue
        last = stops[-1][-1] if stops else None
        if last and last[1].repeats(standing) and choice.keys_at(last[0]) == choice.keys_at(place):
            stops[-1].append((place, standing))
        else:
            stops.append([(place, standing)])
    return stops

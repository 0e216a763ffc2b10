"""The search for the cheapest path through a trellis of keys and readings (Viterbi), in both directions.

The search is separable. Inside a key a reading only looks at the readings before it in that key; to come from
another key, only the cheapest reading there matters. For n stops, k keys and r readings it takes
n·(k·r² + k²) steps.
"""

from __future__ import annotations

from operator import add

from studio.theory.harmony.trellis import Row, Trellis

Costs = dict[int, Row]
"""For each key that may hold at a stop, a cost for each candidate there."""

_FAR = float("inf")


def passes(trellis: Trellis) -> tuple[list[Costs], list[Costs]]:
    """For each stop, the cost of the best path up to each candidate, and of the best whole path through it."""
    forward, backward = _forward(trellis), _backward(trellis)
    through = [
        {key: list(map(add, costs, behind[key])) for key, costs in ahead.items()}
        for ahead, behind in zip(forward, backward, strict=True)
    ]
    return forward, through


def way_back(trellis: Trellis, forward: list[Costs], ends: Costs) -> list[tuple[int, int]]:
    """The best path from its cheapest end: the key and the candidate at each stop, in order."""
    here = min((cost, key, at) for key, costs in ends.items() for at, cost in enumerate(costs))[1:]
    traced = [here]
    for stop in range(len(forward) - 1, 0, -1):
        here = _source(trellis, stop, *here, forward[stop - 1])
        traced.append(here)
    return traced[::-1]


def _forward(trellis: Trellis) -> list[Costs]:
    passed: list[Costs] = [trellis.own[0]]
    for stop in range(1, len(trellis.own)):
        before = passed[-1]
        left = {key: _cheapest_exit(trellis, stop - 1, key, costs) for key, costs in before.items()}
        entered = _entries(trellis, stop, left)
        passed.append(
            {
                key: _reached(trellis, stop, key, before.get(key), entered[key])
                for key in trellis.allowed[stop]
            }
        )
    return passed


def _cheapest_exit(trellis: Trellis, stop: int, key: int, costs: Row) -> float:
    weight = trellis.weights[stop]
    return min(a + weight * b for a, b in zip(costs, trellis.leaving(stop, key), strict=True))


def _entries(trellis: Trellis, stop: int, left: dict[int, float]) -> dict[int, float]:
    """For each key at a stop, the cost of coming into it from the best other key."""
    factor = trellis.factors[stop]
    sources = list(left.items())
    entered = {}
    for key in trellis.allowed[stop]:
        changes = trellis.changes(key)
        entered[key] = min(
            [cost + factor * changes[one] for one, cost in sources if one != key], default=_FAR
        )
    return entered


def _reached(trellis: Trellis, stop: int, key: int, stayed: Row | None, entered: float) -> Row:
    """The cost of the best path to each candidate in a key, coming from the same key or from another."""
    own = trellis.own[stop][key]
    if stayed is None:
        return [cost + entered for cost in own]
    weight, joins = trellis.weights[stop - 1], trellis.joins(stop - 1, key)
    best = [entered] * len(own)
    for cost, row in zip(stayed, joins, strict=True):
        for right, join in enumerate(row):
            if cost + weight * join < best[right]:
                best[right] = cost + weight * join
    return list(map(add, own, best))


def _backward(trellis: Trellis) -> list[Costs]:
    """For each stop, key and candidate, the cost of the best path from it on, without its own cost."""
    last = len(trellis.own) - 1
    weight = trellis.weights[last]
    to_come: list[Costs] = [
        {key: [weight * cost for cost in trellis.leaving(last, key)] for key in trellis.allowed[last]}
    ]
    for stop in range(last - 1, -1, -1):
        ahead = {key: list(map(add, trellis.own[stop + 1][key], costs)) for key, costs in to_come[-1].items()}
        changed = _exits(trellis, stop, {key: min(costs) for key, costs in ahead.items()})
        to_come.append(
            {key: _awaited(trellis, stop, key, ahead.get(key), changed[key]) for key in trellis.allowed[stop]}
        )
    return to_come[::-1]


def _exits(trellis: Trellis, stop: int, cheapest: dict[int, float]) -> dict[int, float]:
    """For each key at a stop, the cost of going on in the best other key."""
    factor = trellis.factors[stop + 1]
    goals = [(key, cost, trellis.changes(key)) for key, cost in cheapest.items()]
    return {
        key: min([cost + factor * changes[key] for goal, cost, changes in goals if goal != key], default=_FAR)
        for key in trellis.allowed[stop]
    }


def _awaited(trellis: Trellis, stop: int, key: int, ahead: Row | None, changed: float) -> Row:
    """The cost of the best path on from each candidate in a key, in the same key or in another."""
    weight = trellis.weights[stop]
    elsewhere = [changed + weight * cost for cost in trellis.leaving(stop, key)]
    if ahead is None:
        return elsewhere
    return [
        min(change, min([weight * join + cost for join, cost in zip(row, ahead, strict=True)]))
        for change, row in zip(elsewhere, trellis.joins(stop, key), strict=True)
    ]


def _source(trellis: Trellis, stop: int, key: int, right: int, before: Costs) -> tuple[int, int]:
    """Where the best path to a candidate comes from; staying in the key wins a tie."""
    weight, factor, changes = trellis.weights[stop - 1], trellis.factors[stop], trellis.changes(key)
    ways: list[tuple[float, bool, int, int]] = []
    for other, costs in before.items():
        if other == key:
            joins = trellis.joins(stop - 1, key)
            ways += [(cost + weight * joins[at][right], False, other, at) for at, cost in enumerate(costs)]
        else:
            leaving = trellis.leaving(stop - 1, other)
            change = factor * changes[other]
            ways += [(cost + weight * leaving[at] + change, True, other, at) for at, cost in enumerate(costs)]
    return min(ways)[2:]

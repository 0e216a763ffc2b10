"""How likely each key is at each place, given the whole song; and the steadiest path through the likely ones.

The places form a hidden Markov chain over the keys with points as log weights (a conditional random field;
Lafferty, McCallum and Pereira, ICML 2001). Forward and backward sums over all ways of hearing the song give each
place the share of those ways that are in each key. A path that is right at most places by these shares agrees
better with people than the single likeliest one.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import exp

from studio.theory.harmony.key_changes import BETWEEN, Changes, changes
from studio.theory.harmony.key_evidence import KEYS, evidence
from studio.theory.harmony.key_places import KeyPlace

_PLACES = range(len(KEYS))
_INTO = tuple(zip(*BETWEEN, strict=True))
_STEADY = 0.25  # a change of key has to win this much of a chord

Shares = list[float]
"""How much of all ways of hearing is in each key of ``KEYS``; they add up to 1."""


def posterior(places: Sequence[KeyPlace]) -> list[Shares]:
    """The shares of the keys at each place, which must be one at least."""
    weights = [_weights(place) for place in places]
    between = [changes(before, here) for before, here in pairwise(places)]
    forward = [_normed(weights[0])]
    for step, weight in zip(between, weights[1:], strict=True):
        reached = _onward(forward[-1], step)
        forward.append(_normed([one * two for one, two in zip(weight, reached, strict=True)]))
    backward = [[1.0] * len(KEYS)]
    for step, weight in zip(reversed(between), reversed(weights[1:]), strict=True):
        later = _normed([one * two for one, two in zip(weight, backward[-1], strict=True)])
        backward.append(_back(later, step))
    return [
        _normed([one * two for one, two in zip(ahead, behind, strict=True)])
        for ahead, behind in zip(forward, reversed(backward), strict=True)
    ]


def steady_path(shares: Sequence[Shares]) -> list[int]:
    """The place in ``KEYS`` of the key at each place: the most shares in sum, less a little for each change.

    For songs without chords, which have no readings to be weighed.
    """
    best, came_from = list(shares[0]), []
    for here in shares[1:]:
        leader = max(_PLACES, key=best.__getitem__)
        source = [key if best[key] >= best[leader] - _STEADY else leader for key in _PLACES]
        best = [here[key] + best[source[key]] - _STEADY * (source[key] != key) for key in _PLACES]
        came_from.append(source)
    path = [max(_PLACES, key=best.__getitem__)]
    for source in reversed(came_from):
        path.append(source[path[-1]])
    return path[::-1]


def _weights(place: KeyPlace) -> list[float]:
    points = evidence(place)
    most = max(points)
    return [exp(point - most) for point in points]


def _onward(shares: Shares, step: Changes) -> Shares:
    leaving, entering = step
    out = [share * leave for share, leave in zip(shares, leaving, strict=True)]
    return [shares[key] + entering[key] * sum(map(float.__mul__, out, _INTO[key])) for key in _PLACES]


def _back(shares: Shares, step: Changes) -> Shares:
    leaving, entering = step
    into = [share * enter for share, enter in zip(shares, entering, strict=True)]
    return [shares[key] + leaving[key] * sum(map(float.__mul__, into, BETWEEN[key])) for key in _PLACES]


def _normed(values: Sequence[float]) -> Shares:
    total = sum(values)
    return [value / total for value in values]

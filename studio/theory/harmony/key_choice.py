"""Keys that nobody has written, as the search over keys and readings asks for them.

The shares of ``key_posterior`` say how likely each key is at each chord, the whole song considered; the
search (``path.best_path``) weighs them against what it costs to read the chords in each key and to change it.
So keys and readings are chosen together: a key in which the chords around make sense wins over one that is
barely likelier.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log

from studio.music.chart import Chart
from studio.music.key import Key
from studio.theory.harmony.key_evidence import KEYS
from studio.theory.harmony.key_posterior import Shares
from studio.theory.harmony.path import best_path

# In points of the readings' costs; found on the corpus and the popular charts together, and flat around here.
UNLIKELY = 1.0  # for each factor of e by which a key is less than certain
CHANGE = 1.0  # for each change of key, beside what the shares say of it
_LEAST = 1e-6

_NUMBER = {key: number for number, key in enumerate(KEYS)}


class FoundKeys:
    """All 24 keys at each sounding chord, with their shares. See ``path.KeyChoice``."""

    def __init__(self, chart: Chart, shares: Sequence[Shares]) -> None:
        sounding = [place for place, at in enumerate(chart.chords) if at.chord is not None]
        self._costs = {
            place: [-UNLIKELY * log(max(share, _LEAST)) for share in here]
            for place, here in zip(sounding, shares, strict=True)
        }

    def keys_at(self, place: int) -> Sequence[Key]:
        return KEYS

    def weight(self, place: int) -> float:
        return 1.0

    def evidence(self, place: int, key: Key) -> float:
        return self._costs[place][_NUMBER[key]]

    def change_cost(self, before: Key, after: Key) -> float:
        return CHANGE

    def change_factor(self, place: int) -> float:
        return 1.0


def chosen_keys(chart: Chart, shares: Sequence[Shares]) -> list[int]:
    """The place in ``KEYS`` of the key at each sounding chord, on the cheapest path through keys and readings."""
    steps = best_path(chart, FoundKeys(chart, shares)).steps
    return [_NUMBER[step.key] for step in steps if step is not None]

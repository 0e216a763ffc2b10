"""Where exactly keys begin, and which are too short to be one.

Chords that two keys share stay with the old key as long as its tonic or V still comes back; what follows the last of
these is the pivot, and the new key begins there. A key of a chord or two that goes by as fast as the others is a
tonicisation, and stays in the key around it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from statistics import median

from studio.music.key import Key
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.key_evidence import KEYS
from studio.theory.harmony.key_places import KeyPlace
from studio.theory.harmony.key_posterior import Shares
from studio.theory.harmony.key_roles import is_dominant, is_tonic, points_home, rests_at_home

_FEW = 2  # chords that make no key,
_SHORT = 4  # if they last less than this many usual chords


def with_pivots(places: Sequence[KeyPlace], path: Sequence[int]) -> list[int]:
    """The path through ``KEYS`` with each change of key set where it is heard."""
    found = list(path)
    runs = _runs(path)
    for before, run in pairwise(runs):
        old = path[before[0]]
        start = beginning(places, run, KEYS[old], KEYS[path[run[0]]])
        found[run[0] : start] = [old] * (start - run[0])
    return found


def without_glimpses(places: Sequence[KeyPlace], shares: Sequence[Shares], path: Sequence[int]) -> list[int]:
    """The path with keys of too few chords, the shortest first, taken into the likelier of their neighbours."""
    found = list(path)
    usual = median(place.span.length for place in places)
    while True:
        runs = _runs(found)
        short = [run for run in runs if len(runs) > 1 and _is_glimpse([places[at] for at in run], usual)]
        if not short:
            return found
        run = min(short, key=lambda run: sum(places[at].span.length for at in run))
        beside = [found[at] for at in (run[0] - 1, run[-1] + 1) if 0 <= at < len(found)]
        likelier = max(beside, key=lambda key: sum(shares[at][key] for at in run))
        found[run[0] : run[-1] + 1] = [likelier] * len(run)


def _runs(path: Sequence[int]) -> list[list[int]]:
    return [list(run) for _, run in groupby(range(len(path)), key=path.__getitem__)]


def beginning(places: Sequence[KeyPlace], run: Sequence[int], old: Key, new: Key) -> int:
    """Which place of the run the new key begins on."""
    start = run[0]
    for number in run:
        chord = places[number].chord
        if chord is None or places[number].opens or not belongs(chord, old) or _arrives(places[number], new):
            break
        if (is_tonic(chord, old) or is_dominant(chord, old)) and number < run[-1]:
            start = number + 1
    return start


def _arrives(place: KeyPlace, key: Key) -> bool:
    return rests_at_home(place, key) and place.before is not None and points_home(place.before, key)


def _is_glimpse(places: Sequence[KeyPlace], usual: Fraction) -> bool:
    chords = [chord for chord, _ in groupby(place.chord for place in places)]
    length = sum((place.span.length for place in places), Fraction(0))
    return len(chords) <= _FEW and length < _SHORT * usual

"""Modulation to the dominant and back, which the shares alone seldom hear, as most of its chords are in both keys.

A stretch is in the dominant's key where its own V comes home twice, the last time to close it, where no chord denies
the new key, and where it lasts: four bars, or as many chords as a phrase of a hymn has. One V of V that goes to V
leaves the key as it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from studio.music.key import Key
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.key_evidence import KEYS
from studio.theory.harmony.key_pivots import beginning
from studio.theory.harmony.key_places import KeyPlace
from studio.theory.harmony.key_posterior import Shares
from studio.theory.harmony.key_roles import above, is_dominant, is_tonic

_HOMECOMINGS = 2
_CLOSED = 0.7  # of the shares; our judgement
_BARS, _BAR = 4, Fraction(4)  # quarter notes, where the bars are not known
_PHRASE = 6  # chords


def with_dominant_keys(places: Sequence[KeyPlace], path: Sequence[int], time: SongTime | None) -> list[int]:
    """The path through ``KEYS`` with its stretches in the key of the dominant."""
    found = list(path)
    for end in range(len(places) - 1, 0, -1):
        home = KEYS[found[end]]
        number = _dominant_of(found[end])
        stretch = _stretch(places, found, end, home, KEYS[number])
        if stretch and _lasts([places[place] for place in stretch], time):
            found[stretch[0] : end + 1] = [number] * len(stretch)
    return found


def with_closes(shares: Sequence[Shares], before: Sequence[int], path: Sequence[int]) -> list[Shares]:
    """The shares with the part that the closes of a stretch in the dominant's key give to it."""
    found = [list(here) for here in shares]
    for here, old, new in zip(found, before, path, strict=True):
        if old != new:
            here[:] = [(1 - _CLOSED) * share for share in here]
            here[new] += _CLOSED
    return found


def _dominant_of(number: int) -> int:
    """The number of the key a fifth above, in the same mode."""
    return number // 12 * 12 + (number + 7) % 12


def _stretch(places: Sequence[KeyPlace], path: Sequence[int], end: int, home: Key, new: Key) -> range:
    """The places that end on a close in the new key and have another one before; empty if there are none."""
    if not _comes_home(places, end, new) or end == len(places) - 1:
        return range(0)
    start = end
    while start and path[start - 1] == path[end] and not _denies(places[start - 1], new):
        start -= 1
    start = beginning(places, range(start, end + 1), home, new)
    stretch = range(start, end + 1)
    homecomings = sum(_comes_home(places, place, new) for place in stretch[1:])
    loops = any(places[place].again for place in stretch)  # G Em A7 D, round and round, stays in G
    return stretch if homecomings >= _HOMECOMINGS and not loops else range(0)


def _lasts(places: Sequence[KeyPlace], time: SongTime | None) -> bool:
    span = Span(places[0].span.start, places[-1].span.end)
    bars = span.length / _BAR if time is None else sum(1 for _ in time.barlines(span))
    chords = [chord for chord, _ in groupby(place.chord for place in places)]
    return bars >= _BARS or len(chords) >= _PHRASE


def _comes_home(places: Sequence[KeyPlace], place: int, key: Key) -> bool:
    """Whether the chord is the tonic, at rest in root position, after its own V."""
    chord, before = places[place].chord, places[place].before
    if chord is None or before is None or chord.bass is not None or chord.seventh == "♭7":
        return False
    return is_tonic(chord, key) and is_dominant(before, key) and before.triad != "suspended"


def _denies(place: KeyPlace, key: Key) -> bool:
    chord = place.chord
    if chord is None or not belongs(chord, key):
        return True
    return above(chord.root, key) == 0 and chord.seventh == "♭7"  # C7 goes back to F

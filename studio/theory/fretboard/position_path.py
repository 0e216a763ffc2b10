"""Where to play a line of notes, so that the hand moves as little as it can.

Of all ways to play the notes on the strings, the cheapest is taken: shifting the hand costs, more so the further
it goes, and playing high up the neck costs a little. It is a shortest path through the places of the hand, one
step for each moment (dynamic programming), and it finds the best way exactly. While nothing but open strings ring,
from one to the next, the hand is free: it moves at leisure, and no string sticks out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from types import MappingProxyType

from studio.music.pitch import Pitch
from studio.theory.fretboard.fingering import grips
from studio.theory.fretboard.hand_positions import reach_at
from studio.theory.fretboard.neck import Place, places_of_pitch
from studio.theory.fretboard.tuning import Tuning
from studio.theory.plain_english import listed

SHIFT = 1.0
"""To shift the hand at all: the ear hears it, and the eye has to leave the music."""

SHIFT_PER_FRET = 0.35
"""The further the hand goes, the more easily it misses."""

HIGH = 0.04
"""Each fret up the neck: where two places are as good, the one near the nut is found more easily."""

STRETCHED = 0.15
"""A note past one fret for each finger, still within reach of the little finger."""

SHIFT_FREE = 0.15
"""To shift the hand from one open string to another: nothing is cut off, and there is time to look."""

SHIFT_FREE_PER_FRET = 0.02
"""The further the hand goes meanwhile."""

OPEN_FROM_HIGH = 0.3
"""An open string sticks out of what is played from the fifth fret up, by half of this on each side of it."""

HIGHEST_LOW_HAND = 4
"""The fret under the index finger up to which an open string sounds like the others."""


@dataclass(frozen=True, slots=True)
class Played:
    """One moment: where each of its notes is played, in the order given; None for a note that is not.

    ``hand`` is the fret under the index finger, 1 or higher. ``complaint`` is a sentence that names the notes
    that cannot be played and says why, "" if all can.
    """

    places: tuple[Place | None, ...]
    hand: int
    complaint: str = ""


_Stand = tuple[int, bool]
"""The fret under the index finger, and whether it is free: whether all that sounds is open strings."""


@dataclass(frozen=True, slots=True)
class _Moment:
    """The cheapest way to play a moment for each place of the hand, at work and free: {stand: (cost, places)}."""

    ways: Mapping[_Stand, tuple[float, tuple[Place | None, ...]]]
    complaint: str


def play_line(
    moments: Sequence[Sequence[Pitch]], tuning: Tuning, first: int = 0, last: int = 15
) -> tuple[Played, ...]:
    """Where to play each moment of a line; several pitches in a moment sound at once, on a string each.

    Pitches are as they sound. Frets from ``first`` to ``last`` are used, open strings only if ``first`` is 0.
    A note that cannot be played is None in ``places`` and named in ``complaint``: none is dropped silently.
    """
    layers = [_moment(tuple(moment), tuning, first, last) for moment in moments]
    totals: dict[_Stand, float] = {}
    came_from: list[dict[_Stand, _Stand]] = []
    for layer in layers:
        before = {stand: _cheapest_before(totals, stand) for stand in layer.ways}
        came_from.append({stand: best for stand, (_, best) in before.items()})
        totals = {stand: before[stand][0] + cost for stand, (cost, _) in layer.ways.items()}
    stand = min(totals, key=lambda at: (totals[at], at), default=(1, False))
    played = []
    for layer, back in zip(reversed(layers), reversed(came_from), strict=True):
        played.append(Played(layer.ways[stand][1], stand[0], layer.complaint))
        stand = back[stand]
    return tuple(reversed(played))


def _cheapest_before(totals: Mapping[_Stand, float], stand: _Stand) -> tuple[float, _Stand]:
    """The cheapest way to arrive at a place of the hand: its cost, and where the hand was before."""
    if not totals:
        return 0.0, stand
    ways = ((cost + _step(at, stand), abs(at[0] - stand[0]), at) for at, cost in totals.items())
    cost, _, at = min(ways)
    return cost, at


def _step(one: _Stand, two: _Stand) -> float:
    """What it costs to go on from one moment to the next: the hand that moves, and the sound that changes."""
    (before, was_free), (after, is_free) = one, two
    apart = abs(after - before)
    if was_free and is_free:
        return SHIFT_FREE + SHIFT_FREE_PER_FRET * apart if apart else 0.0
    at_work = after if was_free else before
    sticks_out = was_free != is_free and at_work > HIGHEST_LOW_HAND
    return (SHIFT + SHIFT_PER_FRET * apart if apart else 0.0) + (OPEN_FROM_HIGH / 2 if sticks_out else 0.0)


@lru_cache(maxsize=4096)
def _moment(pitches: tuple[Pitch, ...], tuning: Tuning, first: int, last: int) -> _Moment:
    """Every sensible way to play the pitches, as many of them as can be played at once."""
    places = [places_of_pitch(pitch, tuning, first, last) for pitch in pitches]
    playable = tuple(number for number, found in enumerate(places) if found)
    hands = range(max(first, 1), max(last, first, 1) + 1)
    for kept in _as_many_as_possible(playable, pitches):
        ways = {
            (hand, free): way
            for hand in hands
            for free in (False, True)
            if (way := _cheapest(places, kept, (hand, free), tuning)) is not None
        }
        if ways:
            return _Moment(MappingProxyType(ways), _complaint(pitches, places, kept, tuning, last))
    raise AssertionError("A single playable note, or none, can always be played.")


def _as_many_as_possible(playable: tuple[int, ...], pitches: Sequence[Pitch]) -> Iterator[tuple[int, ...]]:
    """Which notes to keep, all of them first; the highest and then the lowest, which the ear follows, stay longest."""
    order = sorted(playable, key=lambda number: pitches[number].midi)
    worth = {order[0]: 1, order[-1]: 2} if order else {}
    for count in range(len(playable), -1, -1):
        ways = combinations(playable, count)
        yield from sorted(ways, key=lambda kept: -sum(worth.get(number, 0) for number in kept))


def _cheapest(
    places: Sequence[tuple[Place, ...]], kept: tuple[int, ...], stand: _Stand, tuning: Tuning
) -> tuple[float, tuple[Place | None, ...]] | None:
    """The cheapest way to play the kept notes with the hand at one place; None if it cannot."""
    hand, free = stand
    reach = reach_at(hand, tuning.reach)
    near = [
        [place for place in places[number] if place.fret == 0 or hand <= place.fret < hand + reach]
        for number in kept
    ]
    chosen = min(
        (way for way in _on_a_string_each(near) if _is_free(way) == free and _can_be_pressed(way, tuning)),
        key=lambda way: (_cost(way, hand, tuning), [place.string for place in way]),
        default=None,
    )
    if chosen is None:
        return None
    found: list[Place | None] = [None] * len(places)
    for number, place in zip(kept, chosen, strict=True):
        found[number] = place
    return _cost(chosen, hand, tuning), tuple(found)


def _on_a_string_each(near: Sequence[Sequence[Place]]) -> Iterator[tuple[Place, ...]]:
    if not near:
        yield ()
        return
    for rest in _on_a_string_each(near[1:]):
        for place in near[0]:
            if all(place.string != other.string for other in rest):
                yield (place, *rest)


def _is_free(way: Sequence[Place]) -> bool:
    return bool(way) and all(place.fret == 0 for place in way)


def _can_be_pressed(way: Sequence[Place], tuning: Tuning) -> bool:
    """Whether four fingers can press all at once; one note always can."""
    if len(way) < 2:
        return True
    frets: list[int | None] = [None] * len(tuning.strings)
    for place in way:
        frets[place.string] = place.fret
    return bool(grips(tuple(frets)))


def _cost(way: Sequence[Place], hand: int, tuning: Tuning) -> float:
    if _is_free(way):
        return HIGH * hand
    return HIGH * hand + sum(_note_cost(place.fret, hand, tuning) for place in way)


def _note_cost(fret: int, hand: int, tuning: Tuning) -> float:
    if fret == 0:
        return OPEN_FROM_HIGH if hand > HIGHEST_LOW_HAND else 0.0
    return HIGH * fret + (STRETCHED if fret - hand >= tuning.reach else 0.0)


def _complaint(
    pitches: Sequence[Pitch],
    places: Sequence[tuple[Place, ...]],
    kept: Sequence[int],
    tuning: Tuning,
    last: int,
) -> str:
    """What cannot be played, and why: a note that lies nowhere, or one that has to be let go for the others."""
    nowhere = [str(pitch) for pitch, found in zip(pitches, places, strict=True) if not found]
    let_go = [str(pitches[number]) for number, found in enumerate(places) if found and number not in kept]
    said = []
    if nowhere:
        verb = "is" if len(nowhere) == 1 else "are"
        said.append(f"{listed(nowhere)} {verb} not on the neck up to fret {last} in {tuning}")
    if let_go:
        others = [str(pitches[number]) for number in kept]
        said.append(f"{listed(let_go)} cannot be held together with {listed(others)}")
    return f"{listed(said)}." if said else ""

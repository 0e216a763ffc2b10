"""Where to play a line of notes, so that the hand moves as little as it can.

Of all ways to play the notes on the strings, the cheapest is taken: shifting the hand costs, more so the further
it goes, and playing high up the neck costs a little. It is a shortest path through the places of the hand, one
step for each moment (dynamic programming), and it finds the best way exactly.
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

HIGH = 0.03
"""Each fret up the neck: where two places are as good, the one near the nut is found more easily."""

STRETCHED = 0.15
"""A note past one fret for each finger, still within reach of the little finger."""

OPEN_FROM_HIGH = 0.3
"""An open string sticks out of a line that is played from the fifth fret up."""


@dataclass(frozen=True, slots=True)
class Played:
    """One moment: where each of its notes is played, in the order given; None for a note that is not.

    ``hand`` is the fret under the index finger, 1 or higher. ``complaint`` is a sentence that names the notes
    that cannot be played and says why, "" if all can.
    """

    places: tuple[Place | None, ...]
    hand: int
    complaint: str = ""


@dataclass(frozen=True, slots=True)
class _Moment:
    """The cheapest way to play a moment for each place of the hand: {hand: (cost, places)}."""

    ways: Mapping[int, tuple[float, tuple[Place | None, ...]]]
    complaint: str


def play_line(
    moments: Sequence[Sequence[Pitch]], tuning: Tuning, first: int = 0, last: int = 15
) -> tuple[Played, ...]:
    """Where to play each moment of a line; several pitches in a moment sound at once, on a string each.

    Pitches are as they sound. Frets from ``first`` to ``last`` are used, open strings only if ``first`` is 0.
    A note that cannot be played is None in ``places`` and named in ``complaint``: none is dropped silently.
    """
    layers = [_moment(tuple(moment), tuning, first, last) for moment in moments]
    totals: dict[int, float] = {}
    came_from: list[dict[int, int]] = []
    for layer in layers:
        before = {hand: _cheapest_before(totals, hand) for hand in layer.ways}
        came_from.append({hand: best for hand, (_, best) in before.items()})
        totals = {hand: before[hand][0] + cost for hand, (cost, _) in layer.ways.items()}
    hand = min(totals, key=lambda at: (totals[at], at), default=1)
    played = []
    for layer, back in zip(reversed(layers), reversed(came_from), strict=True):
        played.append(Played(layer.ways[hand][1], hand, layer.complaint))
        hand = back[hand]
    return tuple(reversed(played))


def _cheapest_before(totals: Mapping[int, float], hand: int) -> tuple[float, int]:
    """The cheapest way to arrive at a place of the hand: its cost, and where the hand was before."""
    if not totals:
        return 0.0, hand
    return min((cost + _shift(at, hand), abs(at - hand), at) for at, cost in totals.items())[::2]


def _shift(one: int, two: int) -> float:
    return SHIFT + SHIFT_PER_FRET * abs(two - one) if one != two else 0.0


@lru_cache(maxsize=4096)
def _moment(pitches: tuple[Pitch, ...], tuning: Tuning, first: int, last: int) -> _Moment:
    """Every sensible way to play the pitches, as many of them as can be played at once."""
    places = [places_of_pitch(pitch, tuning, first, last) for pitch in pitches]
    playable = tuple(number for number, found in enumerate(places) if found)
    hands = range(max(first, 1), max(last, first, 1) + 1)
    for kept in _as_many_as_possible(playable, pitches):
        ways = {hand: way for hand in hands if (way := _cheapest(places, kept, hand, tuning)) is not None}
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
    places: Sequence[tuple[Place, ...]], kept: tuple[int, ...], hand: int, tuning: Tuning
) -> tuple[float, tuple[Place | None, ...]] | None:
    """The cheapest way to play the kept notes with the hand at one place; None if it cannot."""
    reach = reach_at(hand, tuning.reach)
    near = [
        [place for place in places[number] if place.fret == 0 or hand <= place.fret < hand + reach]
        for number in kept
    ]
    chosen = min(
        (way for way in _on_a_string_each(near) if _can_be_pressed(way, tuning)),
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


def _can_be_pressed(way: Sequence[Place], tuning: Tuning) -> bool:
    """Whether four fingers can press all at once; one note always can."""
    if len(way) < 2:
        return True
    frets: list[int | None] = [None] * len(tuning.strings)
    for place in way:
        frets[place.string] = place.fret
    return bool(grips(tuple(frets)))


def _cost(way: Sequence[Place], hand: int, tuning: Tuning) -> float:
    return HIGH * hand + sum(_note_cost(place.fret, hand, tuning) for place in way)


def _note_cost(fret: int, hand: int, tuning: Tuning) -> float:
    if fret == 0:
        return OPEN_FROM_HIGH if hand > 4 else 0.0
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

"""Our own search for the shapes of a chord on a tuning, the most playable first.

Every place of the hand along the neck is tried (``hand_positions``), what four fingers can press is kept
(``fingering``), and the rest is a matter of costs (``playable``). A shape that is a better one with strings left
out or added is not listed again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from heapq import heappop, heappush
from operator import itemgetter
from typing import NamedTuple

from studio.music.chord import Chord
from studio.theory.fretboard.fingering import Grip, grips, numbered
from studio.theory.fretboard.hand_positions import ANYTHING, Frets, Rules, Wishes, candidates, rules_for
from studio.theory.fretboard.needed_tones import Needed, needed_tones
from studio.theory.fretboard.playable import WIDE, Cost, costs, grip_points, least_points, points
from studio.theory.fretboard.shape import Shape
from studio.theory.fretboard.sounding import Sound
from studio.theory.fretboard.tuning import Tuning


@dataclass(frozen=True, slots=True)
class FoundShape:
    """A shape with its fingers, and why it stands where it does: its costs, which add up to ``cost``."""

    shape: Shape
    cost: float
    costs: tuple[Cost, ...]


class _Judged(NamedTuple):
    """A candidate with all that its place in the list and its likeness to others depend on."""

    cost: float
    lowest: int
    bass: int
    frets: Frets
    grip: Grip
    points: tuple[float, ...]


_Place = tuple[float, int, tuple[int, ...]]
"""Where a shape stands in the list; no two stand at the same place."""

_ROUNDED = 1e-5
"""Costs are rounded, and a bound is not."""


@lru_cache(maxsize=256)
def find_shapes(
    chord: Chord, tuning: Tuning, wishes: Wishes = ANYTHING, most: int = 12
) -> tuple[FoundShape, ...]:
    """The shapes of a chord, the most playable first, at most ``most``; () if there is none.

    >>> from studio.music.chord_reader import read_chord
    >>> from studio.theory.fretboard.named_tunings import STANDARD
    >>> [found.shape.text for found in find_shapes(read_chord("Am"), STANDARD, most=1)]
    ['x02210']
    """
    chord = _over(chord, wishes)
    needed = needed_tones(chord, wishes.rootless)
    tries = (
        _each_grip_once(_cheapest_first(chord, needed, tuning, wishes, rules), most)
        for rules in rules_for(chord, tuning, wishes)
    )
    return tuple(
        FoundShape(Shape(one.frets, numbered(one.grip, one.frets)), one.cost, costs(one.points))
        for one in next((found for found in tries if found), ())
    )


def why_no_shape(chord: Chord, tuning: Tuning, wishes: Wishes = ANYTHING) -> str:
    """One sentence that says why a search found nothing, and what would help."""
    chord = _over(chord, wishes)
    fewest = needed_tones(chord, wishes.rootless).fewest
    strings = len(tuning.strings)
    if fewest > strings:
        less = "" if wishes.rootless else " leave its root to the bass, or"
        return (
            f"{chord.text} needs {fewest} different notes at once and {tuning} has {strings} strings:"
            f"{less} write a plainer chord."
        )
    return (
        f"No hand position up to fret {wishes.highest_fret} holds {chord.text} in {tuning}: "
        "allow a higher fret or a longer reach, or give the fingering yourself."
    )


def _over(chord: Chord, wishes: Wishes) -> Chord:
    """The chord over the bass that somebody wants."""
    if wishes.bass is None:
        return chord
    return Chord.of(chord.root, chord.quality, chord.changes, wishes.bass, chord.upper)


def _cheapest_first(
    chord: Chord, needed: Needed, tuning: Tuning, wishes: Wishes, rules: Rules
) -> Iterator[_Judged]:
    """All that fingers can press under these rules, in order, and judged no sooner than somebody asks for it.

    Candidates come by what they cost at least. A judged one waits until no other can come before it.
    """
    sound, strings = _sound(chord, needed, tuning), tuning.midi
    low = needed.bass if rules.low is None else rules.low
    waiting: list[tuple[_Place, _Judged]] = []
    bounded = ((least_points(frets), frets) for frets in candidates(needed, tuning, wishes, rules))
    for least, frets in sorted(bounded, key=itemgetter(0)):
        while waiting and waiting[0][0][0] < least - _ROUNDED:
            yield heappop(waiting)[1]
        one = _judged(frets, needed, sound, strings, low)
        if one is not None:
            heappush(waiting, (_place(one), one))
    while waiting:
        yield heappop(waiting)[1]


def _sound(chord: Chord, needed: Needed, tuning: Tuning) -> Sound:
    by_number = {tone.number: (chord.root.pc + tone.semitones) % 12 for tone in chord.tones}
    return Sound(
        root=chord.root.pc,
        third=by_number.get(3, by_number.get(4, by_number.get(2))),
        fifth=by_number.get(5),
        may_lack=needed.may_lack,
        slash=needed.bass is not None,
        power=chord.triad == "power",
        reentrant=tuning.reentrant,
    )


def _judged(
    frets: Frets, needed: Needed, sound: Sound, strings: Sequence[int], low: int | None
) -> _Judged | None:
    """A shape with its easiest fingers and what it costs; None if the bass is wrong or no hand can press it."""
    pitches = [midi + fret for midi, fret in zip(strings, frets, strict=True) if fret is not None]
    if not _bass_is_right(pitches, needed, low):
        return None
    ways = grips(frets)
    if not ways:
        return None
    grip = ways[0] if len(ways) == 1 else min(ways, key=lambda way: sum(grip_points(way, len(frets))))
    numbers = points(frets, grip, pitches, sound)
    lowest = grip[0].fret if grip else 0
    return _Judged(round(sum(numbers), 6), lowest, min(pitches) % 12, frets, grip, numbers)


def _bass_is_right(pitches: Sequence[int], needed: Needed, low: int | None) -> bool:
    """Whether ``low`` is the lowest pitch class; a bass that is foreign to the chord sounds nowhere else."""
    if low is None or min(pitches) % 12 != low:
        return low is None
    foreign = needed.bass is not None and needed.bass not in needed.allowed
    return not foreign or sum(pitch % 12 == needed.bass for pitch in pitches) == 1


def _place(one: _Judged) -> _Place:
    """By cost, then from the nut up, then sounding strings before silent ones."""
    return one.cost, one.lowest, tuple(99 if fret is None else fret for fret in one.frets)


def _each_grip_once(found: Iterable[_Judged], most: int) -> tuple[_Judged, ...]:
    """The best of each grip, in their order."""
    kept: list[_Judged] = []
    for one in found:
        if len(kept) == most:
            break
        if not any(_is_same_grip(one, better) for better in kept):
            kept.append(one)
    return tuple(kept)


def _is_same_grip(one: _Judged, better: _Judged) -> bool:
    """Whether a shape is a better one with strings left out or added: C is x32010, and x3201x is no other shape.

    A string below that puts another note in the bass does make another shape (332010 is C/G), and so does a wide
    barre that makes two strings more sound: 133211 is not xx3211.
    """
    pairs = list(zip(one.frets, better.frets, strict=True))
    if any(a != b for a, b in pairs if a is not None and b is not None):
        return False
    added = sum(b is None and a is not None for a, b in pairs)
    left_out = sum(a is None and b is not None for a, b in pairs)
    if (added and left_out) or (added and one.bass != better.bass):
        return False
    fuller = one if added else better
    return not (added + left_out > 1 and any(press.width > WIDE for press in fuller.grip))

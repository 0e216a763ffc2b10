"""Chords that are on their way, and sevenths that are at home: what keeps a chain from being a row of keys.

E7 A7 D7 G7 touches four tonics and rests on none; in Em7 A7 Dm7 G7 the Dm7 is no D minor but the ii of what comes. And
C7 is a tonic in a blues, where F7 goes back to it, but points onward elsewhere.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import groupby, pairwise

from studio.music.chord import Chord
from studio.theory.harmony.numeral_writing import with_bass_seventh

_FOURTH, _FIFTH = 5, 7  # half steps


def on_the_way(chords: Sequence[Chord], homes: frozenset[int]) -> frozenset[int]:
    """The numbers of the chords that do not rest where they are.

    They are each ii7 whose V7 follows and does not fall back to it, as it would in a vamp of the two, nor ends such
    a vamp, nor hangs at the end with no way back to the start; and each dominant seventh that falls a fifth to
    another dominant seventh or to such a ii7. ``homes`` are the roots of sevenths that are at home, which do rest.
    """
    stops = _stops(chords)
    moving: set[int] = set()
    for place in range(len(stops) - 2, -1, -1):
        here, after = (chords[stop[0]] for stop in stops[place : place + 2])
        then = chords[stops[place + 2][0]] if place + 2 < len(stops) else None
        hangs = then is None and after.triad == "suspended" and not _falls_a_fifth(after, chords[0])
        if hangs or not _falls_a_fifth(here, after):
            continue
        round_ = chords[stops[place - 1][0]] if place else after
        vamp = round_.root.pc == after.root.pc if then is None else then.root.pc == here.root.pc
        if (is_supertonic_seventh(here) and is_dominant_seventh(after) and not vamp) or (
            is_dominant_seventh(here)
            and here.root.pc not in homes
            and (stops[place + 1][0] in moving or _drives_on(after, homes))
        ):
            moving.update(stops[place])
    return frozenset(moving)


def home_sevenths(chords: Sequence[Chord]) -> frozenset[int]:
    """The pitch classes on which a dominant seventh is a tonic, of one chord or more.

    It is where the seventh a fourth above falls back to it, straight on or over ♯iv°, as IV7 does to the I7 of a
    blues; where all chords have this one root; and where sevenths prevail, it opens, comes back, and does not
    drive on to another.
    """
    heard = [chords[stop[0]] for stop in _stops(chords)]
    sevenths = [chord for chord in heard if is_dominant_seventh(chord)]
    found = _falling_back(heard)
    first = heard[0]
    if first in sevenths and len({chord.root.pc for chord in heard}) == 1:
        found.add(first.root.pc)
    returns = first.root.pc in [chord.root.pc for chord in heard[1:]]
    if first in sevenths and returns and 2 * len(sevenths) > len(heard) and not _falls_a_fifth(*heard[:2]):
        found.add(first.root.pc)
    return frozenset(found)


def possible_tonics(chords: Sequence[Chord]) -> frozenset[int]:
    """The pitch classes that may be a tonic: the roots that sound, and those to which a V7, or a V after ii, points.

    One root alone says nothing of the others, so all may be.
    """
    roots = frozenset(chord.root.pc for chord in chords)
    if len(roots) == 1:
        return frozenset(range(12))
    fives = [chord for chord in chords if is_dominant_seventh(with_bass_seventh(chord))]
    fives += [
        two
        for one, two in pairwise(chords)
        if one.triad == "minor" and two.triad == "major" and _falls_a_fifth(one, two)
    ]
    return roots | {(chord.root.pc + _FOURTH) % 12 for chord in fives}


def _falling_back(heard: Sequence[Chord]) -> set[int]:
    """The pitch classes of I where IV7 falls back to I7, not of its V, to which that I goes no oftener."""
    times = Counter(
        two.root.pc for one, two in pairwise(_without_passing(heard)) if _is_four_to_one(one, two)
    )
    return {root for root, count in times.items() if count > times[(root - _FIFTH) % 12]}


def is_dominant_seventh(chord: Chord) -> bool:
    """Whether it has a major third, or a fourth in its place, and a minor seventh."""
    return chord.triad in ("major", "augmented", "suspended") and chord.seventh == "♭7"


def is_supertonic_seventh(chord: Chord) -> bool:
    """Whether it is a minor or half-diminished seventh chord."""
    return chord.triad in ("minor", "diminished") and chord.seventh == "♭7"


def _falls_a_fifth(one: Chord, two: Chord) -> bool:
    return (two.root.pc - one.root.pc) % 12 == _FOURTH


def _drives_on(chord: Chord, homes: frozenset[int]) -> bool:
    return is_dominant_seventh(chord) and chord.root.pc not in homes


def _is_four_to_one(one: Chord, two: Chord) -> bool:
    both = all(chord.triad == "major" and chord.seventh == "♭7" for chord in (one, two))
    return both and (two.root.pc - one.root.pc) % 12 == _FIFTH


def _without_passing(heard: Sequence[Chord]) -> list[Chord]:
    """The chords without each diminished one a half step above the root before it."""
    passing = {
        place + 1
        for place, (one, two) in enumerate(pairwise(heard))
        if two.triad == "diminished" and (two.root.pc - one.root.pc) % 12 == 1
    }
    return [chord for place, chord in enumerate(heard) if place not in passing]


def _stops(chords: Sequence[Chord]) -> list[list[int]]:
    """The numbers of the chords, those together that stay on one harmony whatever its colours."""
    harmony = [(chord.root.pc, chord.triad == "suspended" or chord.triad, chord.seventh) for chord in chords]
    return [list(stop) for _, stop in groupby(range(len(chords)), key=harmony.__getitem__)]

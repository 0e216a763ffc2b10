"""Voice leading between neighbouring chords, as their symbols alone allow it: the smallest motion.

Each note of the larger chord is led from or to one note of the smaller, and every note takes part, so that a
triad that meets a seventh chord doubles one of its notes. Among all such pairings the one with the fewest
half steps in all is taken; of equals the one that holds the most notes, then the one with the smallest leaps.
The search is exact. Notes count as pitch classes: up or down, whichever is nearer; a tritone goes up.

The size is Tymoczko's "taxicab" size, the sum of the half steps of all voices (The Geometry of Musical Chords,
Science 313, 2006). He also lets chords of the same size double notes; we do not, because players count the
voices that they have.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from studio.music.chart import ChordAt
from studio.music.chord import Chord
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.plain_english import listed

# One number that sorts by half steps in all, then by notes that move, then by the sum of squared half steps.
_HALF_STEP, _MOVING = 100_000, 5_000
_AS_PLAYED = 0.8  # the count is exact; that hands or voices do just this is likely, no more


@dataclass(frozen=True, slots=True)
class Move:
    """One voice: the note that it leaves, the note that it reaches, half steps between (down is negative)."""

    start: NoteName
    end: NoteName
    semitones: int


@dataclass(frozen=True, slots=True)
class Leading:
    """The smallest motion from one chord to the next.

    ``span`` covers both chords. ``moves`` has one entry for each note of the larger chord, in the order of
    its notes; ``total`` is half steps in all; ``held`` are the notes that both chords have; ``half_steps`` the
    moves by one half step. ``bass`` is how the lowest note moves, which no pairing decides.
    """

    span: Span
    one: Chord
    two: Chord
    moves: tuple[Move, ...]
    total: int
    held: tuple[NoteName, ...]
    half_steps: tuple[Move, ...]
    bass: Move
    reason: str
    sureness: float = _AS_PLAYED
    runner_up: str = ""


Led = Callable[[Chord], tuple[NoteName, ...]]
"""Which notes of a chord are led."""


def leadings(chords: Sequence[ChordAt], led: Led = Chord.notes) -> tuple[Leading, ...]:
    """The leading between each two neighbours that differ; a chord struck again is passed over, as is N.C."""
    found: list[Leading] = []
    before: ChordAt | None = None
    for at in chords:
        if at.chord is None:
            continue
        if before is not None and before.chord is not None and before.chord != at.chord:
            found.append(_leading(before.chord, at.chord, Span(before.start, at.end), led))
        before = at if before is None or before.chord != at.chord else before
    return tuple(found)


def first_to_last(chords: Sequence[ChordAt]) -> Leading | None:
    """The leading from the first chord of a stretch to its last; None if fewer than two sound."""
    sounding = [at for at in chords if at.chord is not None]
    if len(sounding) < 2:
        return None
    first, last = sounding[0], sounding[-1]
    assert first.chord is not None and last.chord is not None
    return _leading(first.chord, last.chord, Span(first.start, last.end))


def smallest_motion(one: Sequence[NoteName], two: Sequence[NoteName]) -> tuple[Move, ...]:
    """The pairing of two sets of notes with the fewest half steps in all; empty if either is empty.

    A note that is given twice is two voices. One move for each note of the larger set, in its order.
    """
    if not one or not two:
        return ()
    turned = len(two) > len(one)
    more, fewer = (two, one) if turned else (one, two)
    chosen = _pairing(tuple(note.pc for note in more), tuple(note.pc for note in fewer))
    pairs = [(note, fewer[place]) for note, place in zip(more, chosen, strict=True)]
    return tuple(_move(there, here) if turned else _move(here, there) for here, there in pairs)


def _leading(one: Chord, two: Chord, span: Span, led: Led = Chord.notes) -> Leading:
    moves = smallest_motion(led(one), led(two))
    shared = {note.pc for note in led(two)}
    held = tuple(note for note in led(one) if note.pc in shared)
    return Leading(
        span=span,
        one=one,
        two=two,
        moves=moves,
        total=sum(abs(move.semitones) for move in moves),
        held=held,
        half_steps=tuple(move for move in moves if abs(move.semitones) == 1),
        bass=_move(one.lowest, two.lowest),
        reason=_reason(one, two, held),
    )


def _reason(one: Chord, two: Chord, held: tuple[NoteName, ...]) -> str:
    if not held:
        return f"{one} and {two} share no note."
    return f"{one} and {two} share {listed([str(note) for note in held])}."


def _move(start: NoteName, end: NoteName) -> Move:
    up = (end.pc - start.pc) % 12
    return Move(start, end, up if up <= 6 else up - 12)


@lru_cache(maxsize=4096)
def _pairing(more: tuple[int, ...], fewer: tuple[int, ...]) -> tuple[int, ...]:
    """For each of ``more`` the place of its partner in ``fewer``, every one of which has a partner.

    Dynamic programming over which of ``fewer`` are taken: with seven notes on both sides there are 128 states
    for each note.
    """
    everyone = (1 << len(fewer)) - 1
    best: dict[int, tuple[int, tuple[int, ...]]] = {0: (0, ())}
    for left, note in zip(range(len(more) - 1, -1, -1), more, strict=True):
        found: dict[int, tuple[int, tuple[int, ...]]] = {}
        for taken, (cost, chosen) in best.items():
            for place, partner in enumerate(fewer):
                now = taken | 1 << place
                if (everyone & ~now).bit_count() > left:
                    continue
                candidate = (cost + _cost(note, partner), (*chosen, place))
                if now not in found or candidate < found[now]:
                    found[now] = candidate
        best = found
    return best[everyone][1]


def _cost(note: int, partner: int) -> int:
    distance = min((note - partner) % 12, (partner - note) % 12)
    return distance * _HALF_STEP + (distance > 0) * _MOVING + distance * distance

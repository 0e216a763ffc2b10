"""Keys of one chord moved to the tones of another, with the least that must move."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from studio.music.chord import Chord
from studio.timeline.playing.read_instead import nearest

_REACH = 9
"""Half steps that a key moves at most."""

_MISSED, _FIFTH_MISSED = 12, 3
"""What a tone of the chord that is nowhere costs, against half steps of motion; the fifth says least of a chord."""

_MOVES = 2
"""What it costs that a key moves at all."""

_DOUBLED = 3
"""What it costs to double a third or seventh, which stand out (common practice)."""

_PATIENCE = 20_000
"""Keys that are tried at most: enough for every layout of two hands; of a denser texture the best so far is taken."""

_SAY_THE_CHORD = frozenset({"3", "♭3", "7", "♭7"})


def relaid(
    keys: Sequence[int], chord: Chord, apart: Collection[tuple[int, int]], bass: bool
) -> tuple[int, ...]:
    """The MIDI number to which each of two keys or more moves; `keys` are given from low to high, and stay in order.

    Pairs of keys `apart` are never down at once, and may go to one height. With `bass` the lowest takes the chord's
    bass. Where no such layout is in reach the outer keys move further, and in the end each key takes the tone nearest
    to it.
    """
    for near in (True, False):
        search = _Search(keys, chord, apart, bass, near)
        search.go((), 0)
        if search.best:
            return search.best
    return tuple(_around(midi, chord)[0] for midi in keys)


class _Search:
    """Every layout in reach, the nearest first; one that already costs more than the best is left."""

    def __init__(
        self, keys: Sequence[int], chord: Chord, apart: Collection[tuple[int, int]], bass: bool, near: bool
    ) -> None:
        """`near`: the top and the bass go nowhere but to a nearest tone."""
        self._keys, self._apart = keys, apart
        self._choices = [_around(midi, chord) for midi in keys]
        if bass:
            low = nearest(chord.lowest, keys[0])
            self._choices[0] = [low] if near else [low, low - 12]
        top = self._choices[-1]
        if near:
            self._choices[-1] = [midi for midi in top if abs(midi - keys[-1]) == abs(top[0] - keys[-1])]
        self._worth = {(chord.root.pc + tone.semitones) % 12: tone.degree for tone in chord.tones}
        self._worth.setdefault(chord.lowest.pc, "bass")
        self.best: tuple[int, ...] = ()
        self._least, self._tried = float("inf"), 0

    def go(self, found: tuple[int, ...], cost: float) -> None:
        """Lay the keys that are left."""
        self._tried += 1
        if cost >= self._least or self._tried > _PATIENCE:
            return
        number = len(found)
        if number == len(self._keys):
            whole = cost + self._colour(found)
            if whole < self._least:
                self.best, self._least = found, whole
            return
        for midi in self._choices[number]:
            if self._fits(found, midi):
                way = abs(midi - self._keys[number])
                self.go((*found, midi), cost + way + _MOVES * (way > 0))

    def _fits(self, found: tuple[int, ...], midi: int) -> bool:
        """Whether the next key may go there: over those that are down with it, and under none."""
        key = self._keys[len(found)]
        return all(
            lower < midi or (lower == midi and (old, key) in self._apart)
            for old, lower in zip(self._keys, found, strict=False)
        )

    def _colour(self, found: tuple[int, ...]) -> float:
        """What the layout lacks of the chord, and doubles."""
        heights = {midi % 12 for midi in found}
        missed = sum(
            _FIFTH_MISSED if degree == "5" else _MISSED
            for pc, degree in self._worth.items()
            if pc not in heights
        )
        distinct = [midi % 12 for midi in set(found)]
        doubled = sum(
            distinct.count(pc) > 1 for pc, degree in self._worth.items() if degree in _SAY_THE_CHORD
        )
        return missed + _DOUBLED * doubled


def _around(midi: int, chord: Chord) -> list[int]:
    """The tones of the chord in reach of a key, the nearest first, the lower of two as near."""
    pcs = {name.pc for name in chord.notes()}
    reached = (at for at in range(midi - _REACH, midi + _REACH + 1) if at % 12 in pcs)
    return sorted(reached, key=lambda at: (abs(at - midi), at))

"""Cutting a part into moments: what sounds together, and what is struck together."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from studio.music.note import Note
from studio.music.place import Span

_ROLL = Fraction(1, 12)  # quarter notes within which notes still count as struck together
_TAIL = Fraction(
    1, 8
)  # quarter notes by which a note may hang over into a span, and is not heard as part of it
_BEYOND = Fraction(1)  # quarter notes after a span that tell where its last notes lead
_PUSH = Fraction(1, 2)  # quarter notes by which a note may come before the chord to which it belongs


@dataclass(frozen=True, slots=True)
class Slice:
    """A stretch over which the same notes sound, from low to high; no notes is silence."""

    span: Span
    notes: tuple[Note, ...]

    @property
    def pcs(self) -> frozenset[int]:
        """The pitch classes that sound."""
        return frozenset(note.pitch.name.pc for note in self.notes)


def slices(notes: Sequence[Note], span: Span) -> tuple[Slice, ...]:
    """The span cut wherever a note starts or stops, silences between notes among the slices."""
    inside = sounding_in(notes, span)
    edges = {span.start, span.end}
    for note in inside:
        edges |= {max(note.onset, span.start), min(note.end, span.end)}
    ordered = sorted(edges)
    starts = {start: place for place, start in enumerate(ordered)}
    held: list[list[Note]] = [[] for _ in ordered]
    for note in inside:
        first, last = starts[max(note.onset, span.start)], starts[min(note.end, span.end)]
        for place in range(first, last):
            held[place].append(note)
    return tuple(
        Slice(Span(start, end), tuple(sorted(held[place], key=_height)))
        for place, (start, end) in enumerate(pairwise(ordered))
    )


def strikes(notes: Sequence[Note]) -> tuple[tuple[Note, ...], ...]:
    """The notes that are struck together, each group from low to high, in order of time."""
    groups: list[list[Note]] = []
    for note in sorted(notes, key=lambda note: note.onset):
        if groups and note.onset - groups[-1][0].onset <= _ROLL:
            groups[-1].append(note)
        else:
            groups.append([note])
    return tuple(tuple(sorted(group, key=_height)) for group in groups)


def sounding_in(notes: Sequence[Note], span: Span) -> tuple[Note, ...]:
    """The notes that sound in a span, in order of time."""
    return tuple(note for note in notes if note.sounds_in(span))


def held_at(notes: Sequence[Note], at: Fraction) -> tuple[tuple[Note, ...], Span]:
    """The notes that sound at a moment, in order of time, and the span over which they all do; empty if none do."""
    held = tuple(note for note in notes if note.sounds_at(at))
    return held, Span(
        max((note.onset for note in held), default=at), min((note.end for note in held), default=at)
    )


def belonging_to(notes: Sequence[Note], span: Span) -> tuple[Note, ...]:
    """The notes that sound in a span as part of it.

    Left out are those that hang over by less than a 32nd from before, and those that are pushed: struck in
    the last eighth and held past the end, they belong to what follows.
    """
    push = min(_PUSH, span.length / 4)
    return tuple(
        note
        for note in sounding_in(notes, span)
        if note.end - span.start > min(_TAIL, note.length / 2)
        and not (note.onset >= span.end - push and note.onset > span.start and note.end > span.end + _TAIL)
    )


def leading_on(notes: Sequence[Note], inside: Sequence[Note], span: Span) -> tuple[Note, ...]:
    """The notes of what follows a span, struck within a beat of its end or pushed before it."""
    own = {id(note) for note in inside}
    first, last = span.end - _PUSH, span.end + _BEYOND
    return tuple(n for n in notes if first <= n.onset < last and n.end > span.end and id(n) not in own)


class InOrder:
    """The notes of a part in order of time, so that those of many spans are found fast."""

    def __init__(self, notes: Sequence[Note]) -> None:
        self._notes = sorted(notes, key=lambda note: (note.onset, note.pitch.midi))
        self._onsets = [note.onset for note in self._notes]
        self._longest = max((note.length for note in self._notes), default=Fraction(0))

    def near(self, span: Span) -> Sequence[Note]:
        """All notes that sound in the span, perhaps some before it, and those that start within a beat after."""
        first = bisect_left(self._onsets, span.start - self._longest)
        return self._notes[first : bisect_left(self._onsets, span.end + _BEYOND)]


def _height(note: Note) -> tuple[int, int]:
    return note.pitch.midi, note.pitch.height

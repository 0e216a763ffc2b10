"""What the notes of a span say about its mode: how long each sounds, and which of them only pass."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.neighbours import Neighbours

_LONGEST_PASSING = Fraction(1)  # quarter notes


@dataclass(frozen=True)
class Evidence:
    """The sounding notes, counted in half steps (0 to 11) above the tonic.

    ``lengths`` are shares of the sounding time, which add up to 1, or all 0 when nothing sounds;
    ``written`` is the name under which each note is written most, by half steps; ``goals`` holds, for each
    note, the notes a half step away to which it goes on, and None if it does not always go on so or is
    longer than a quarter note; ``quarters`` is the sounding time.
    """

    tonic: NoteName
    lengths: tuple[float, ...]
    written: dict[int, NoteName]
    goals: tuple[frozenset[int] | None, ...]
    quarters: float

    @cached_property
    def sounding(self) -> frozenset[int]:
        """The notes that sound."""
        return frozenset(place for place, length in enumerate(self.lengths) if length)

    def share(self, places: Sequence[int]) -> float:
        """The share of the sounding time that these notes take, 0 to 1."""
        return sum(self.lengths[place] for place in places)

    def passes(self, place: int, held: Sequence[int]) -> bool:
        """Whether a note is always short and goes on by half step to one of the notes ``held``."""
        goals = self.goals[place]
        return goals is not None and goals <= set(held)


def gather(notes: Sequence[Note], tonic: NoteName, span: Span | None) -> Evidence:
    """Weigh the notes that sound in the span (all of them without one), each by the time for which it does."""
    line = Neighbours(notes)
    totals = [Fraction(0)] * 12
    names: dict[int, dict[NoteName, Fraction]] = {}
    goals: list[set[int] | None] = [set() for _ in range(12)]
    for note, length in _within(line.notes, span):
        place = (note.pitch.midi - tonic.pc) % 12
        totals[place] += length
        spelled = names.setdefault(place, {})
        spelled[note.pitch.name] = spelled.get(note.pitch.name, Fraction(0)) + length
        goal, found = _goal(note, line), goals[place]
        if goal is None:
            goals[place] = None
        elif found is not None:
            found.add((goal - tonic.pc) % 12)
    quarters = sum(totals, Fraction(0))
    lengths = tuple(float(total / quarters) if quarters else 0.0 for total in totals)
    return Evidence(
        tonic,
        lengths,
        {
            place: max(spelled, key=lambda name: (spelled[name], -abs(name.alter)))
            for place, spelled in names.items()
        },
        tuple(None if found is None else frozenset(found) for found in goals),
        float(quarters),
    )


def _within(notes: Sequence[Note], span: Span | None) -> Iterator[tuple[Note, Fraction]]:
    """The notes that sound in the span and for how long, in quarter notes."""
    for note in notes:
        length = note.length
        if span is not None:
            length = min(note.end, span.end) - max(note.onset, span.start)
        if length > 0:
            yield note, length


def _goal(note: Note, line: Neighbours) -> int | None:
    """The MIDI number of the next note of the line if it is a half step away and this one is short."""
    after = line.after(note) if note.length <= _LONGEST_PASSING else None
    return after.pitch.midi if after is not None and abs(after.pitch.midi - note.pitch.midi) == 1 else None

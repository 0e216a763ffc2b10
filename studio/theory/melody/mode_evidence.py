"""What the notes of a span say about its mode: how long each sounds, and which of them only pass."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.lines import Lines
from studio.theory.melody.mode_context import Context

_LONGEST_PASSING = Fraction(1)  # quarter notes


@dataclass(frozen=True)
class Evidence:
    """The sounding notes, counted in half steps (0 to 11) above the tonic.

    ``lengths`` are shares of the sounding time, which add up to 1, or all 0 when nothing sounds;
    ``written`` is the name under which each note is written most, by half steps; ``goals`` holds, for each
    note, the notes a half step away to which it goes on, and None if it does not always go on so or is
    longer than a quarter note; ``quarters`` is the sounding time. ``ornaments`` are the notes that only embellish,
    as the tone reader has found; they have no share. ``chords`` holds the shares of the span for which the chords
    under the line hold each note, empty where no chords are known; ``blue`` is whether a note is called blue, and
    ``blue_thirds`` whether the third is, again and again.
    """

    tonic: NoteName
    lengths: tuple[float, ...]
    written: dict[int, NoteName]
    goals: tuple[frozenset[int] | None, ...]
    quarters: float
    ornaments: frozenset[int] = frozenset()
    chords: Mapping[int, float] = field(default_factory=dict)
    blue: bool = False
    blue_thirds: bool = False

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


def gather(
    notes: Sequence[Note],
    tonic: NoteName,
    span: Span | None,
    context: Context | None = None,
) -> Evidence:
    """Weigh the notes that sound in the span (all of them without one), each by the time for which it does.

    Notes that only embellish, as the context has them, weigh nothing.
    """
    lines, context = Lines(notes), context or Context()
    totals = [Fraction(0)] * 12
    names: dict[int, dict[NoteName, Fraction]] = {}
    goals: list[set[int] | None] = [set() for _ in range(12)]
    ornaments = set[int]()
    for number, note in enumerate(lines.notes):
        length = note.length if span is None else min(note.end, span.end) - max(note.onset, span.start)
        if length <= 0:
            continue
        place = (note.pitch.midi - tonic.pc) % 12
        spelled = names.setdefault(place, {})
        spelled[note.pitch.name] = spelled.get(note.pitch.name, Fraction(0)) + length
        if (note.onset, note.pitch.midi) in context.embellishing:
            ornaments.add(place)
            continue
        totals[place] += length
        goal, found = _goal(note, lines.neighbour(number, 1)), goals[place]
        if goal is None:
            goals[place] = None
        elif found is not None:
            found.add((goal - tonic.pc) % 12)
    quarters = sum(totals, Fraction(0))
    return Evidence(
        tonic,
        lengths=tuple(float(total / quarters) if quarters else 0.0 for total in totals),
        written={place: _written_most(spelled) for place, spelled in names.items()},
        goals=tuple(None if found is None else frozenset(found) for found in goals),
        quarters=float(quarters),
        ornaments=frozenset(place for place in ornaments if not totals[place]),
        chords={(pc - tonic.pc) % 12: share for pc, share in context.chords.items()},
        blue=context.blue,
        blue_thirds=context.blue_thirds,
    )


def _goal(note: Note, after: Note | None) -> int | None:
    """The MIDI number of the next note of the line if it is a half step away and this one is short."""
    if after is None or note.length > _LONGEST_PASSING:
        return None
    return after.pitch.midi if abs(after.pitch.midi - note.pitch.midi) == 1 else None


def _written_most(spelled: Mapping[NoteName, Fraction]) -> NoteName:
    """The name that is written for the longest time; of equals the one with fewer accidentals."""
    return max(spelled, key=lambda name: (spelled[name], -abs(name.alter)))

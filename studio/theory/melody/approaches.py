"""Half-step approaches: where a line leads into a chord tone by a half step.

The strongest pull that a line has: G♯ to A over A major, whichever chord the G♯ sounded over.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from studio.music.chart import ChordAt
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.melody.degree import Degree
from studio.theory.melody.note_reading import NoteReading


@dataclass(frozen=True, slots=True)
class HalfStepApproach:
    """A half step from ``start`` into ``target``, a tone of the chord that sounds when it is struck.

    ``at`` is where the target is struck, in quarter notes; ``degree`` is the target over its chord;
    ``from_below`` whether the line rises into it; ``reason`` is one short sentence. ``sureness`` is lower for
    a power chord's open third.
    """

    at: Fraction
    start: Pitch
    target: Note
    chord_at: ChordAt
    degree: Degree
    from_below: bool
    reason: str
    sureness: float = 1.0
    runner_up: str = ""


def half_step_approaches(
    readings: Iterable[NoteReading], span: Span | None = None
) -> tuple[HalfStepApproach, ...]:
    """Each half step into a chord tone, in order of time; with a span, those whose target is struck in it."""
    struck = (one for one in readings if one.span.start == one.note.onset and one.kind == "chord tone")
    return tuple(
        _approach(reading)
        for reading in struck
        if reading.approach.half_step and (span is None or span.contains(reading.note.onset))
    )


def _approach(reading: NoteReading) -> HalfStepApproach:
    assert reading.chord_at is not None
    assert reading.chord_at.chord is not None
    assert reading.degree is not None
    assert reading.approach.pitch is not None
    start, name = reading.approach.pitch, reading.note.pitch.name
    way = "up" if reading.approach.direction == "up" else "down"
    chord = reading.chord_at.chord.text
    reason = f"{start.name} leads {way} a half step to {name}, the {reading.degree.label} of {chord}."
    return HalfStepApproach(
        reading.note.onset, start, reading.note, reading.chord_at, reading.degree, way == "up", reason,
        reading.sureness,
    )  # fmt: skip

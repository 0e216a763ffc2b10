"""The notes of a figure that only pass between the tones of its chord."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.chord import Chord
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.lines import Lines
from studio.theory.parts.slices import strikes
from studio.theory.plain_english import listed

_LONGEST = Fraction(1)  # quarter notes
_LONGEST_ANTICIPATION = Fraction(1, 2)  # quarter notes


def ornaments(
    notes: Sequence[Note], span: Span, later: Sequence[Note] = (), chord: Chord | None = None
) -> frozenset[Note]:
    """The passing and neighbouring notes and the anticipations among the notes of one harmony.

    Such a note starts after the span does, is no longer than a quarter note, never sounds as anything else, and
    is no part of a new chord: of what is struck with it, all was struck before. It is reached and left by
    step; and it fills the gap between two notes that are no ornaments, or stands on a weaker part of the beat
    than one of its neighbours, counted from the start of the span, or is a bass that walks under a chord that
    is struck again. Or it is a single short note at the very end that the next harmony strikes again.

    ``later`` are notes of the next harmony, which tell where the last notes lead; no note of ``chord``, if it
    is given, is an ornament. If only one note would be left, nothing passes but what leads out of the span.
    """
    foreign = [note for note in notes if chord is None or note.pitch.name.pc not in chord.pcs]
    stepping = _stepping(foreign, notes, span, later)
    firm = {note.pitch.name.pc for note in notes if note not in stepping}
    return frozenset(
        note
        for note, way in stepping.items()
        if note.pitch.name.pc not in firm
        and (way.leads_out if len(firm) == 1 else bool(firm))
        and (way.walks or way.weaker or (not way.turns and {*way.from_to} <= firm))
    )


@dataclass(frozen=True, slots=True)
class _Way:
    """How a note that is reached and left by step goes: from which pitch class to which, and so on."""

    from_to: tuple[int, int]
    turns: bool
    weaker: bool
    walks: bool
    leads_out: bool


def _stepping(
    foreign: Sequence[Note], notes: Sequence[Note], span: Span, later: Sequence[Note]
) -> dict[Note, _Way]:
    """The short ones of some notes that are reached and left by step or anticipate what follows, and how."""
    may_step = _with_a_step_beside(foreign, [*notes, *later])
    if not may_step:
        return {}
    lines, beside = Lines([*notes, *later]), _struck_with(notes)
    places = {note: place for place, note in enumerate(lines.notes)}
    found = {}
    for note in may_step:
        if note.onset <= span.start or note.length > _LONGEST:
            continue
        after = lines.neighbour(places[note], 1)
        if after is None or not (is_step(note, after) or _anticipates(note, after, beside)):
            continue
        before = lines.neighbour(places[note], -1)
        if (
            before is None
            or before not in beside
            or (note.pitch != after.pitch and not is_step(before, note))
        ):
            continue
        company = {other.pitch.name.pc for other in beside[note]}
        if len(company) > 1 and not company <= {other.pitch.name.pc for other in beside[before]}:
            continue
        found[note] = _Way(
            (before.pitch.name.pc, after.pitch.name.pc),
            turns=before.pitch == after.pitch,
            weaker=_weight(note, span) < max(_weight(before, span), _weight(after, span)),
            walks=len(company) > 1 and all(note.pitch.midi < other.pitch.midi for other in beside[note]),
            leads_out=after not in beside,
        )
    return found


def _anticipates(note: Note, after: Note, beside: dict[Note, list[Note]]) -> bool:
    """Whether a single short note comes again at once as a note of the next harmony."""
    again = note.pitch == after.pitch and after not in beside
    return again and note.length <= _LONGEST_ANTICIPATION and not beside[note]


def _with_a_step_beside(foreign: Sequence[Note], notes: Sequence[Note]) -> list[Note]:
    """The ones of which the pitch is a step from another, or comes again, at all."""
    counts = Counter(note.pitch.midi for note in notes)
    return [
        note
        for note in foreign
        if counts[note.pitch.midi] > 1 or any(note.pitch.midi + step in counts for step in (-2, -1, 1, 2))
    ]


def _struck_with(notes: Sequence[Note]) -> dict[Note, list[Note]]:
    """For each note, the others that are struck together with it."""
    return {
        note: [other for other in strike if other is not note] for strike in strikes(notes) for note in strike
    }


def is_step(one: Note, two: Note) -> bool:
    """Whether two notes are a step apart: at most two half steps, but not the same pitch."""
    return 0 < abs(one.pitch.midi - two.pitch.midi) <= 2


def passing_words(names: Sequence[NoteName]) -> str:
    """Said of notes that are passed over: "D only passes", "D and F only pass"."""
    return f"{listed([str(name) for name in names])} only {'passes' if len(names) == 1 else 'pass'}"


def _weight(note: Note, span: Span) -> Fraction:
    """How strong its moment is: the longest of 4, 2, 1, 1/2 … quarter notes that lead to it from the start."""
    quarters, weight = note.onset - span.start, Fraction(4)
    while weight > Fraction(1, 16) and quarters % weight:
        weight /= 2
    return weight

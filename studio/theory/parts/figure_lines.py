"""Recognising what a line of single notes does: spell a chord, run along a scale, walk, or repeat a note.

Names are common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.theory.parts.figure import Figure
from studio.theory.parts.ornaments import ornaments
from studio.theory.parts.spelled_chords import direction, spelled_chord
from studio.theory.parts.walking import walk

_FEWEST_STEPS = 4  # notes that make a run


def line_figure(
    notes: Sequence[Note],
    span: Span,
    key: Key | None,
    chord: Chord | None,
    pedal: Note | None = None,
    later: Sequence[Note] = (),
) -> Figure:
    """The figure of single notes in order of time.

    ``pedal`` is a bass note that is held under them; ``later`` are the notes of what comes next.
    """
    passing = ornaments(notes, span, later, chord)
    plain = frozenset[Note]()
    return (
        _repeated(notes, span)
        or _broken_octaves(notes, span)
        or _run(notes, span)
        or (None if passing else spelled_chord(notes, plain, span, key, chord, pedal))
        or walk(notes, span)
        or spelled_chord(notes, passing, span, key, chord, pedal)
        or (spelled_chord(notes, plain, span, key, chord, pedal) if chord is None else None)
        or Figure(span, "line", "A line of single notes that spells no one chord.", 0.5)
    )


def _repeated(notes: Sequence[Note], span: Span) -> Figure | None:
    if len({note.pitch.midi for note in notes}) > 1:
        return None
    name = notes[0].pitch.name
    if len(notes) == 1:
        return Figure(span, "line", "A single note is struck.", 1.0)
    return Figure(span, "repeated note", f"{name} is struck {len(notes)} times.", 1.0, times=len(notes))


def _broken_octaves(notes: Sequence[Note], span: Span) -> Figure | None:
    if len({note.pitch.name.pc for note in notes}) > 1:
        return None
    reason = f"{notes[0].pitch.name} leaps by octaves."
    return Figure(span, "octaves", reason, 0.95, times=len(notes), name="broken octaves")


def _run(notes: Sequence[Note], span: Span) -> Figure | None:
    """Steps in one direction; half steps all the way are a chromatic run."""
    moves = [two.pitch.midi - one.pitch.midi for one, two in pairwise(notes)]
    way = direction(moves)
    if len(notes) < _FEWEST_STEPS or way not in ("rising", "falling"):
        return None
    if not all(abs(move) <= 2 for move in moves):
        return None
    chromatic = all(abs(move) == 1 for move in moves)
    by, ends = "half steps" if chromatic else "step", f"{notes[0].pitch.name} to {notes[-1].pitch.name}"
    reason = f"It goes {'up' if way == 'rising' else 'down'} by {by} from {ends}."
    return Figure(span, "scale run", reason, 0.95, direction=way, name="chromatic" if chromatic else "")

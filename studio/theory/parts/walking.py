"""Walking bass lines: a note on every beat, over bars that by themselves might be arpeggios or runs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from studio.music.note import Note
from studio.music.place import Span
from studio.theory.parts.figure import Figure

_BASS_BELOW = 60  # MIDI number of middle C
_FEWEST = 4  # notes that walk by themselves
_FEWEST_TOGETHER = 8  # notes of a stretch that walks as a whole
_SPELLED = ("arpeggio", "broken chord", "octaves", "repeated note")

Line = tuple[Note, ...]


def is_even_bass(notes: Sequence[Note]) -> bool:
    """Whether low notes follow in quarter notes, never the same twice running."""
    low = all(note.pitch.midi < _BASS_BELOW for note in notes)
    pairs = [*pairwise(notes)]
    even = all(two.onset - one.onset == 1 and one.pitch != two.pitch for one, two in pairs)
    return low and even and bool(pairs)


def walk(notes: Sequence[Note], span: Span) -> Figure | None:
    """A bass in even quarter notes of which a third of the moves or more are steps."""
    moves = [abs(two.pitch.midi - one.pitch.midi) for one, two in pairwise(notes)]
    if len(notes) < _FEWEST or not is_even_bass(notes) or 3 * sum(move <= 2 for move in moves) < len(moves):
        return None
    return Figure(span, "walking line", _reason(notes), 0.8)


def as_one_walk(figures: Sequence[Figure], lines: Sequence[Line]) -> list[Figure]:
    """The figures of one hand, where neighbours that walk on together are all called so.

    ``lines`` are the single notes of each figure, empty for one that is no line. Arpeggios alone are no walk.
    """
    found = [*figures]
    for first, last in _stretches(figures, lines):
        notes = sum(len(line) for line in lines[first:last])
        if notes < _FEWEST_TOGETHER or all(figure.kind in _SPELLED for figure in figures[first:last]):
            continue
        for place in range(first, last):
            figure = Figure(figures[place].span, "walking line", _reason(lines[place]), 0.8)
            found[place] = replace(figure, staff=figures[place].staff)
    return found


def _stretches(figures: Sequence[Figure], lines: Sequence[Line]) -> list[tuple[int, int]]:
    """(first, one past the last) of the neighbours that have a bass note on every beat."""
    stretches: list[tuple[int, int]] = []
    for place, (figure, line) in enumerate(zip(figures, lines, strict=True)):
        whole = Fraction(len(line)) == figure.span.length and line[0].onset == figure.span.start
        if not (whole and is_even_bass(line)):
            continue
        if stretches and stretches[-1][1] == place and figures[place - 1].span.end == figure.span.start:
            stretches[-1] = (stretches[-1][0], place + 1)
        else:
            stretches.append((place, place + 1))
    return stretches


def _reason(notes: Sequence[Note]) -> str:
    return f"Even quarter notes in the bass from {notes[0].pitch.name} to {notes[-1].pitch.name}."

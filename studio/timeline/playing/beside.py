"""The right hand that accompanies a tune: out of its way, so that it is the tune that is heard on top.

A key that the tune strikes at the same moment is left to the tune, and a key that would lie on the tune or over it is
taken an octave lower, as far as the hand goes down (common practice of accompanying).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.music.note import Note
from studio.music.place import Span
from studio.theory.parts.close_voicing import LOWEST_RIGHT

_OCTAVE = 12


@dataclass(frozen=True, slots=True)
class Tunes:
    """The notes of the parts that are heard beside chords over `span`, part by part; of several the highest leads."""

    parts: tuple[tuple[Note, ...], ...]
    span: Span

    def hand(self, keys: Sequence[int], bass: int, held: Span) -> list[int]:
        """The MIDI numbers that a right hand holds over a stretch, of those that it would hold alone."""
        struck = {
            note.pitch.midi
            for notes in self.parts
            for note in notes
            if max(note.onset, self.span.start) == held.start and note.sounds_in(held)
        }
        line = self._line(held)
        kept = [midi for midi in keys if midi not in struck]
        found: list[int] = []
        for midi in kept:
            lower = midi - _OCTAVE
            free = lower >= LOWEST_RIGHT and lower > bass and lower not in kept
            found.append(lower if free and lower < line <= midi else midi)
        return sorted(found)

    def _line(self, held: Span) -> int:
        """The lowest note of the leading part in a stretch; 0 where none plays."""
        lowest = (
            min((note.pitch.midi for note in notes if note.sounds_in(held)), default=0)
            for notes in self.parts
        )
        return max(lowest, default=0)

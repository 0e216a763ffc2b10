"""The note that a melody closes on, over the harmony that it arrives at."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from fractions import Fraction

from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.theory.progression.harmonies import Harmony


class Tune:
    """A melody that is asked again and again what it closes on."""

    def __init__(self, notes: Sequence[Note]) -> None:
        self._notes = sorted(notes, key=lambda note: note.onset)
        self._longest = max((note.length for note in notes), default=Fraction(0))

    def closing_note(self, arrival: Harmony) -> NoteName | None:
        """The note that it settles on while a harmony sounds, after whatever decorates it; None if it rests.

        That is the longest of the harmony's own notes, and of equals the last: C for F–E–C over C, E for F–D–E. Of
        notes that sound together the highest counts, as in a block chord.
        """
        span = arrival.span
        sounding = self._sounding(span.start, span.end)
        upper = [note for note in sounding if not any(_covers(other, note, span.start) for other in sounding)]
        own = [note for note in upper if note.pitch.name.pc in arrival.first.pcs] or upper
        if not own:
            return None
        lengths = [(min(note.end, span.end) - max(note.onset, span.start), note.onset) for note in own]
        return own[lengths.index(max(lengths))].pitch.name

    def _sounding(self, start: Fraction, end: Fraction) -> list[Note]:
        first = bisect_left(self._notes, start - self._longest, key=lambda note: note.onset)
        last = bisect_left(self._notes, end, key=lambda note: note.onset)
        return [note for note in self._notes[first:last] if note.end > start]


def _covers(other: Note, note: Note, start: Fraction) -> bool:
    """Whether another note sounds above this one where it begins, or where the harmony does."""
    return other.pitch.midi > note.pitch.midi and other.sounds_at(max(note.onset, start))

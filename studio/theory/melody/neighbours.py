"""Which note a note comes from and which it goes on to, where several voices may sound at once."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from fractions import Fraction

from studio.music.note import Note

_OVERLAP = Fraction(1, 8)  # quarter notes by which played notes may hang over into the next
_BREATH = Fraction(1, 2)  # quarter notes of rest over which a line still hangs together


class Neighbours:
    """The notes of a part as lines: from each note, the line goes to the nearest pitch that starts as it ends.

    ``notes`` are in order of time, and from low to high where they start together.
    """

    def __init__(self, notes: Sequence[Note]) -> None:
        self.notes = sorted(notes, key=lambda note: (note.onset, note.pitch.midi, note.end))
        self._onsets = [note.onset for note in self.notes]
        self._ending = sorted(self.notes, key=lambda note: (note.end, note.pitch.midi))
        self._ends = [note.end for note in self._ending]

    def after(self, note: Note) -> Note | None:
        """The note to which this one goes on; None before a rest of more than an eighth."""
        first = max(bisect_left(self._onsets, note.end - _OVERLAP), bisect_right(self._onsets, note.onset))
        if first == len(self.notes) or self._onsets[first] - note.end > _BREATH:
            return None
        return _nearest(self.notes[first : bisect_right(self._onsets, self._onsets[first])], note)

    def before(self, note: Note) -> Note | None:
        """The note from which this one comes; None after a rest of more than an eighth."""
        last = bisect_right(self._ends, note.onset + _OVERLAP) - 1
        while last >= 0 and self._ending[last].onset >= note.onset:
            last -= 1
        if last < 0 or note.onset - self._ends[last] > _BREATH:
            return None
        first = bisect_left(self._ends, self._ends[last] - _OVERLAP)
        return _nearest([one for one in self._ending[first : last + 1] if one.onset < note.onset], note)


def _nearest(group: Sequence[Note], note: Note) -> Note:
    return min(group, key=lambda other: (abs(other.pitch.midi - note.pitch.midi), other.pitch.midi))

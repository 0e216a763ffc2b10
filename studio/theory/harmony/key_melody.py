"""The written parts of a song as one line of evidence: what sounds in a span, and where phrases begin and end."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from fractions import Fraction

from studio.music.note import Note
from studio.music.place import Span

_BREATH = Fraction(1, 2)  # a rest of an eighth or more before a note parts two phrases

Histogram = tuple[float, ...]
"""Quarter notes that the melody spends on each of the twelve pitch classes, C first."""


class Line:
    """The notes of a song's written parts, in the order of their onsets."""

    def __init__(self, notes: Sequence[Note]) -> None:
        self.notes = sorted(notes, key=lambda note: note.onset)
        self._onsets = [note.onset for note in self.notes]
        self._longest = max((note.length for note in self.notes), default=Fraction(0))
        ends: list[Fraction] = []
        for note in self.notes:
            ends.append(max(note.end, ends[-1]) if ends else note.end)
        self._ends = ends

    def histogram(self, span: Span) -> Histogram:
        """Quarter notes on each pitch class within the span; empty if nothing sounds."""
        found = [0.0] * 12
        first = bisect_left(self._onsets, span.start - self._longest)
        for note in self.notes[first : bisect_left(self._onsets, span.end)]:
            shared = min(note.end, span.end) - max(note.onset, span.start)
            if shared > 0:
                found[note.pitch.name.pc] += float(shared)
        return tuple(found) if any(found) else ()

    def breathes_before(self, span: Span) -> bool:
        """Whether a rest of all the notes ends where the span begins, or just before or after."""
        first = bisect_left(self._onsets, span.start - _BREATH)
        if first == len(self.notes):
            return False
        onset = self._onsets[first]
        return onset < span.start + 1 and (first == 0 or onset - self._ends[first - 1] >= _BREATH)

    def lands_in(self, span: Span) -> int | None:
        """The pitch class of the last note before a rest or the end, if it sounds within the span."""
        after = bisect_left(self._onsets, span.end)
        if after == 0:
            return None
        last = self.notes[after - 1]
        rests = after == len(self.notes) or self._onsets[after] - self._ends[after - 1] >= _BREATH
        return last.pitch.name.pc if rests and last.end > span.start else None

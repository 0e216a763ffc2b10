"""The chart as a line hears it: which chord sounds under a note, and which come before and after it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction

from studio.music.chart import Chart, ChordAt
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.melody.degree import degree_over


class ChordsUnder:
    """The chart with the repetitions of one chord joined, so that a chord change is a change.

    ``under[i]`` holds the chords that sound under note ``i``, whole, in order; N.C. is none.
    """

    def __init__(self, chart: Chart, notes: Sequence[Note]) -> None:
        self.chords: list[ChordAt] = []
        for at in chart.chords:
            last = self.chords[-1] if self.chords else None
            if last is not None and last.chord == at.chord and last.end == at.start:
                self.chords[-1] = ChordAt(last.start, last.length + at.length, last.chord)
            else:
                self.chords.append(at)
        self.starts = [at.start for at in self.chords]
        self.under = [tuple(self._during(note)) for note in notes]

    def _during(self, note: Note) -> Iterator[ChordAt]:
        end, place = note.end, max(bisect_right(self.starts, note.onset) - 1, 0)
        while place < len(self.chords) and self.starts[place] < end:
            at = self.chords[place]
            if at.chord is not None and at.end > note.onset:
                yield at
            place += 1

    def count(self, start: Fraction, end: Fraction) -> int:
        """How many chords sound from one moment to another; N.C. is none."""
        first, last = bisect_right(self.starts, start) - 1, bisect_left(self.starts, end)
        return sum(at.chord is not None and at.end > start for at in self.chords[max(first, 0) : last])

    def beside(self, at: ChordAt, step: int) -> ChordAt | None:
        """The chord right before (−1) or after (1), if it touches this one."""
        place = bisect_left(self.starts, at.start) + step
        other = self.chords[place] if 0 <= place < len(self.chords) else None
        if other is None or other.chord is None:
            return None
        return other if at.start == other.end or at.end == other.start else None


def is_tone(pitch: Pitch, at: ChordAt | None) -> bool:
    """Whether a pitch is a tone of a chord, or the third, major or minor, that a power chord leaves open."""
    if at is None or at.chord is None:
        return False
    degree = degree_over(pitch.name, at.chord)
    return degree.chord_tone or (at.chord.triad == "power" and degree.label in ("3", "♭3"))

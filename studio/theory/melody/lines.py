"""Which note follows which: the lines that a part is made of.

A part for one voice is one line. A part with chords or several voices is followed as an ear does it: each
note goes on to the nearest pitch, voices do not cross where they need not, and the outer voices stay
outside. Each staff is followed by itself, so that the two hands of a piano part keep their own lines.

Nothing here is counted in quarter notes: what is a rest between phrases and what is only a short note depends
on the notes around it, so that a song written in notes twice as long is heard the same.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from statistics import median_high

from studio.music.note import Note
from studio.theory.melody.motion import STILL, Move, came_from, move

_OVERLAP = Fraction(1, 4)  # of the shorter note, by which played notes may hang over into the next
_NO_MATCH = 1000  # dearer than any leap: a note goes on with some line if one is free
_OFF_OUTER = 2  # half steps that it costs the highest note to go on with a line below the highest


class Lines:
    """The notes of a part in order of time, by their index, and how each goes on.

    ``before[i]`` and ``after[i]`` are the indices of the neighbours of note ``i`` in its line, None at its
    ends and beyond a rest; ``run_first[i]`` and ``run_last[i]`` are the ends of the run of notes on one pitch
    in which note ``i`` stands, often ``i`` itself.
    """

    def __init__(self, notes: Sequence[Note]) -> None:
        self.notes = sorted(notes, key=lambda note: (note.onset, note.pitch.midi))
        self.before: list[int | None] = [None] * len(self.notes)
        self.after: list[int | None] = [None] * len(self.notes)
        self._pace = dict[int, Fraction]()
        self._midi = [note.pitch.midi for note in self.notes]
        self._reach = max((note.length for note in self.notes), default=Fraction(0))
        for staff in {note.staff for note in self.notes}:
            places = [place for place, note in enumerate(self.notes) if note.staff == staff]
            self._pace[staff] = _pace([self.notes[place] for place in places])
            self._follow(places)
        self.run_first = self._runs(self.before, range(len(self.notes)))
        self.run_last = self._runs(self.after, reversed(range(len(self.notes))))

    def neighbour(self, place: int, step: int) -> Note | None:
        """The note right before (−1) or after (1) in the line; None at its ends and beyond a rest."""
        beside = (self.after if step > 0 else self.before)[place]
        return None if beside is None else self.notes[beside]

    def approach(self, place: int) -> Move:
        """How the line comes to a note."""
        before = self.neighbour(place, -1)
        return STILL if before is None else came_from(before.pitch, self.notes[place].pitch)

    def departure(self, place: int) -> Move:
        """How the line leaves a note."""
        after = self.neighbour(place, 1)
        return STILL if after is None else move(self.notes[place].pitch, after.pitch)

    def different(self, place: int, step: int) -> int | None:
        """The nearest neighbour on another pitch, past repetitions of this one."""
        return self.after[self.run_last[place]] if step > 0 else self.before[self.run_first[place]]

    def run(self, place: int) -> tuple[Fraction, Fraction]:
        """From when to when this pitch sounds in its line, struck again or not."""
        return self.notes[self.run_first[place]].onset, self.notes[self.run_last[place]].end

    def struck_with(self, place: int) -> list[Note]:
        """The other notes of the part that are struck at the same moment."""
        onset = self.notes[place].onset
        first = bisect_left(self.notes, onset, key=lambda note: note.onset)
        last = bisect_right(self.notes, onset, key=lambda note: note.onset)
        return [*self.notes[first:place], *self.notes[place + 1 : last]]

    def pace(self, place: int) -> Fraction:
        """The usual distance from one onset to the next on the staff of a note, in quarter notes: the median.

        0 where there are too few notes to tell.
        """
        return self._pace[self.notes[place].staff]

    def lowest_of_several(self) -> set[int]:
        """The notes under which none sounds while others sound above them."""
        under, above, sounding = set(range(len(self.notes))), set[int](), list[int]()
        for place, note in enumerate(self.notes):
            sounding = [other for other in sounding if self.notes[other].end > note.onset]
            for other in sounding:
                low, high = sorted((place, other), key=lambda one: self._midi[one])
                if self._midi[low] < self._midi[high]:
                    above.add(low)
                    under.discard(high)
            sounding.append(place)
        return under & above

    def _runs(self, beside: list[int | None], order: Iterable[int]) -> list[int]:
        """The far end of each run of one pitch, on the side of ``beside``."""
        far = list(range(len(self.notes)))
        for place in order:
            other = beside[place]
            if other is not None and self._midi[other] == self._midi[place]:
                far[place] = far[other]
        return far

    def _follow(self, places: list[int]) -> None:
        """Give each note of one staff its neighbours, one moment after the other."""
        voices: list[int] = []  # the last note of each line so far
        for onset, together in groupby(places, key=lambda place: self.notes[place].onset):
            group = list(together)
            reach = max(self._reach, self.pace(group[0]))
            voices = [voice for voice in voices if onset - self.notes[voice].end <= reach]
            ready = sorted(
                (voice for voice in voices if any(self._joins(voice, place) for place in group)),
                key=lambda voice: self._midi[voice],
            )
            taken = dict(self._match(ready, group))
            for place in group:
                self._link(taken.get(place), place, ready)
            for voice in ready:  # a line that nothing takes up is heard to go on with what comes next
                if self.after[voice] is None and (goes_to := self._nearest(voice, group)) is not None:
                    self.after[voice] = goes_to
            voices = [voice for voice in voices if voice not in taken.values()] + group

    def _link(self, voice: int | None, place: int, ready: list[int]) -> None:
        if voice is not None:
            self.before[place], self.after[voice] = voice, place
        else:  # a new line is heard to come from the nearest one
            free = [other for other in ready if self._joins(other, place)]
            self.before[place] = min(free, key=lambda other: self._distance(other, place), default=None)

    def _nearest(self, voice: int, group: list[int]) -> int | None:
        free = [place for place in group if self._joins(voice, place)]
        return min(free, key=lambda place: self._distance(voice, place), default=None)

    def _distance(self, voice: int, place: int) -> int:
        return abs(self._midi[voice] - self._midi[place])

    def _joins(self, voice: int, place: int) -> bool:
        """Whether a line can go on from one note to a later one: it is over, and no rest parts them.

        A rest parts them if it is longer than the note before it or twice the note after it, unless the notes
        are as near to each other as notes of this part usually are (short notes with gaps between them).
        """
        early, late = self.notes[voice], self.notes[place]
        gap = late.onset - early.end
        if gap < 0:
            return late.onset > early.onset and -gap <= _OVERLAP * min(early.length, late.length)
        if gap == 0:
            return early.length > 0
        return (gap <= early.length and gap <= 2 * late.length) or late.onset - early.onset <= self.pace(
            place
        )

    def _match(self, ready: list[int], group: list[int]) -> Iterator[tuple[int, int]]:
        """Pairs (note, line), lines and notes both in order of pitch: as many as can be, as near as can be."""
        if len(ready) == len(group) == 1:
            yield group[0], ready[0]
            return
        rows, columns = len(ready), len(group)
        best = [[(0, 0)] * (columns + 1) for _ in range(rows + 1)]  # (cost, choice) of the rest from here
        for row in range(rows, -1, -1):
            for column in range(columns - 1, -1, -1):
                options = [(best[row][column + 1][0] + _NO_MATCH, 2)]
                if row < rows:
                    options.append((best[row + 1][column][0], 1))
                    if self._joins(ready[row], group[column]):
                        cost = self._cost(ready, row, group, column)
                        options.append((best[row + 1][column + 1][0] + cost, 0))
                best[row][column] = min(options)
        row = column = 0
        while row < rows and column < columns:
            choice = best[row][column][1]
            if choice == 0:
                yield group[column], ready[row]
            row, column = row + (choice != 2), column + (choice != 1)

    def _cost(self, ready: list[int], row: int, group: list[int], column: int) -> int:
        off_outer = (column == len(group) - 1) != (row == len(ready) - 1)
        return self._distance(ready[row], group[column]) + (_OFF_OUTER if off_outer else 0)


def _pace(notes: list[Note]) -> Fraction:
    onsets = sorted({note.onset for note in notes})
    between = [late - early for early, late in pairwise(onsets)]
    return median_high(between) if len(between) >= 3 else Fraction(0)

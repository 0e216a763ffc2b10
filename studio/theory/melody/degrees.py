"""Reading a written line over the chart: each note's degree, and what kind of tone it is."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.music.chart import Chart, ChordAt
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.melody.degree import Degree, degree_over
from studio.theory.melody.non_chord_tones import Line, name_non_chord_tone

__all__ = ["Degree", "NoteReading", "degree_over", "read_melody", "reading_at"]

_LONGEST_BREATH = Fraction(1)  # quarter notes of rest over which a line still hangs together
_OVERLAP = Fraction(1, 8)  # quarter notes by which played notes may hang over into the next
_LONGEST_PUSH = Fraction(1)  # quarter notes by which an anticipation may come early
_TONE_NAMES = {1: "root", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh"}
_TONE_NAMES |= {9: "ninth", 11: "eleventh", 13: "thirteenth"}


@dataclass(frozen=True, slots=True)
class NoteReading:
    """A note over one chord.

    A note that is held across a chord change has one reading for each chord; ``span`` is the stretch over
    which this one holds. ``kind`` is "chord tone", "suspension 4–3" (9–8, 7–6, …), "retardation 7–8",
    "passing", "neighbour", "anticipation", "appoggiatura", "escape", "non-chord tone", or "no chord", when
    ``degree`` and ``chord_at`` are None. ``reason`` is one short sentence.
    """

    note: Note
    chord_at: ChordAt | None
    degree: Degree | None
    kind: str
    reason: str
    span: Span


def read_melody(notes: Sequence[Note], chart: Chart) -> tuple[NoteReading, ...]:
    """Read each note against each chord that sounds with it, in order of time.

    Where several notes sound at once, each goes on to the nearest pitch of those that start when it ends.
    """
    line = _Lines(notes)
    chords = _Harmonies(chart)
    found = [reading for note in line.notes for reading in _read_note(note, line, chords)]
    return tuple(sorted(found, key=lambda reading: (reading.span.start, reading.note.pitch.midi)))


def reading_at(readings: Sequence[NoteReading], quarters: Fraction) -> NoteReading | None:
    """The reading that holds at a moment; of several, the one that started last, and then the highest."""
    sounding = [reading for reading in readings if reading.span.contains(quarters)]
    return max(sounding, key=lambda reading: (reading.note.onset, reading.note.pitch.midi), default=None)


class _Harmonies:
    """The chart with the repetitions of one chord joined, so that a chord change is a change."""

    def __init__(self, chart: Chart) -> None:
        self.chords: list[ChordAt] = []
        for at in chart.chords:
            last = self.chords[-1] if self.chords else None
            if last is not None and last.chord == at.chord and last.end == at.start:
                self.chords[-1] = ChordAt(last.start, last.length + at.length, last.chord)
            else:
                self.chords.append(at)
        self.starts = [at.start for at in self.chords]

    def at(self, quarters: Fraction) -> ChordAt | None:
        place = bisect_right(self.starts, quarters) - 1
        return self.chords[place] if place >= 0 and quarters < self.chords[place].end else None

    def during(self, note: Note) -> Iterator[ChordAt]:
        place = max(bisect_right(self.starts, note.onset) - 1, 0)
        while place < len(self.chords) and self.chords[place].start < note.end:
            if self.chords[place].end > note.onset:
                yield self.chords[place]
            place += 1

    def beside(self, at: ChordAt, step: int) -> ChordAt | None:
        """The chord right before or after, if it touches this one."""
        place = bisect_left(self.starts, at.start) + step
        other = self.chords[place] if 0 <= place < len(self.chords) else None
        if other is None or other.chord is None:
            return None
        return other if at.start == other.end or at.end == other.start else None


class _Lines:
    """Which note follows which: where a note ends, its line goes on with the nearest pitch that starts."""

    def __init__(self, notes: Sequence[Note]) -> None:
        self.notes = sorted(notes, key=lambda note: (note.onset, note.pitch.midi))
        self.onsets = [note.onset for note in self.notes]
        self.ending = sorted(self.notes, key=lambda note: note.end)
        self.ends = [note.end for note in self.ending]

    def next(self, note: Note, step: int) -> Note | None:
        """The neighbour of a note in its line, 1 after or -1 before; None beyond a rest."""
        group = self._after(note) if step > 0 else self._before(note)
        return min(group, key=lambda other: abs(other.pitch.midi - note.pitch.midi), default=None)

    def _after(self, note: Note) -> list[Note]:
        """The notes that start first of those that start once this one is over."""
        over = max(note.end - _OVERLAP, note.onset)
        place = bisect_left(self.onsets, over)
        while place < len(self.notes) and self.onsets[place] <= note.onset:
            place += 1
        if place == len(self.notes) or self.onsets[place] - note.end > _LONGEST_BREATH:
            return []
        return self.notes[place : bisect_right(self.onsets, self.onsets[place])]

    def _before(self, note: Note) -> list[Note]:
        """The notes that end last of those that are over when this one starts."""
        place = bisect_right(self.ends, note.onset + _OVERLAP) - 1
        while place >= 0 and self.ending[place].onset >= note.onset:
            place -= 1
        if place < 0 or note.onset - self.ends[place] > _LONGEST_BREATH:
            return []
        first = bisect_left(self.ends, self.ends[place] - _OVERLAP)
        return [other for other in self.ending[first : place + 1] if other.onset < note.onset]

    def different(self, note: Note, step: int) -> Note | None:
        """The nearest neighbour on another pitch, past repetitions of this one."""
        other = self.next(note, step)
        while other is not None and other.pitch.midi == note.pitch.midi:
            other = self.next(other, step)
        return other


def _read_note(note: Note, line: _Lines, chords: _Harmonies) -> Iterator[NoteReading]:
    sounding = [at for at in chords.during(note) if at.chord is not None]
    if not sounding:
        span = Span(note.onset, note.end)
        yield NoteReading(note, None, None, "no chord", f"No chord sounds under {note.pitch.name}.", span)
    for at in sounding:
        span = Span(max(note.onset, at.start), min(note.end, at.end))
        yield _read_over(note, at, span, line, chords)


def _read_over(note: Note, at: ChordAt, span: Span, line: _Lines, chords: _Harmonies) -> NoteReading:
    assert at.chord is not None
    degree = degree_over(note.pitch.name, at.chord)
    if _is_tone(note.pitch, at):
        kind, reason = _chord_tone(note, at, degree, line, chords)
    else:
        kind, reason = name_non_chord_tone(_line(note, at, span, line, chords))
        if kind.startswith("suspension") and at.chord.bass in (None, at.chord.root):
            degree = _as_figured(degree, kind)
    return NoteReading(note, at, degree, kind, reason, span)


def _chord_tone(note: Note, at: ChordAt, degree: Degree, line: _Lines, chords: _Harmonies) -> tuple[str, str]:
    """A tone of the chord; but the fourth of a sus chord that steps down to the third is a suspension."""
    assert at.chord is not None
    if degree.label == "4" and at.chord.triad == "suspended":
        after, later = line.different(note, 1), chords.beside(at, 1)
        if after is not None and later is not None and _is_third_of(after, later, at.chord.root):
            return (
                "suspension 4–3",
                f"{note.pitch.name} is the sus4 of {at.chord.text} and steps to the third.",
            )
    if not degree.chord_tone:
        return "chord tone", f"{note.pitch.name} is the third that {at.chord.text} leaves open."
    tone = next((tone for tone in at.chord.tones if tone.degree == degree.label), None)
    place = _TONE_NAMES.get(tone.number, "") if tone is not None else "bass"
    return "chord tone", f"{note.pitch.name} is the {place} of {at.chord.text}."


def _is_third_of(note: Note, at: ChordAt, root: NoteName) -> bool:
    """Whether a note is struck as the third of a chord on this root."""
    if at.chord is None or at.chord.root != root or not at.span.contains(note.onset):
        return False
    return degree_over(note.pitch.name, at.chord).label in ("3", "♭3")


def _line(note: Note, at: ChordAt, span: Span, line: _Lines, chords: _Harmonies) -> Line:
    assert at.chord is not None
    earlier, later = chords.beside(at, -1), chords.beside(at, 1)
    before, after = line.different(note, -1), line.different(note, 1)
    over_after = chords.at(after.onset) if after is not None else None
    return Line(
        pitch=note.pitch,
        chord=at.chord,
        before=before.pitch if before else None,
        after=after.pitch if after else None,
        chord_before=earlier.chord if earlier else None,
        chord_after=later.chord if later else None,
        prepared=_is_prepared(note, at, earlier, line),
        resolves=after is not None and _is_tone(after.pitch, over_after),
        goes_on=_goes_on(note, span, later, line),
    )


def _is_tone(pitch: Pitch, at: ChordAt | None) -> bool:
    """Whether a pitch is a tone of a chord, or the third, major or minor, that a power chord leaves open."""
    if at is None or at.chord is None:
        return False
    degree = degree_over(pitch.name, at.chord)
    return degree.chord_tone or (at.chord.triad == "power" and degree.label in ("3", "♭3"))


def _is_prepared(note: Note, at: ChordAt, earlier: ChordAt | None, line: _Lines) -> bool:
    """Whether the pitch, a tone of the chord before, was held or struck again into this one."""
    if earlier is None or not _is_tone(note.pitch, earlier):
        return False
    if note.onset < at.start:
        return True
    before = line.next(note, -1)
    again = before is not None and before.pitch.midi == note.pitch.midi and before.onset < at.start
    return note.onset == at.start and again


def _goes_on(note: Note, span: Span, later: ChordAt | None, line: _Lines) -> bool:
    """Whether the pitch is early: it sounds on, held or struck again, as a tone of the next chord."""
    if later is None or not _is_tone(note.pitch, later) or later.start - span.start > _LONGEST_PUSH:
        return False
    if note.end > later.start:
        return True
    after = line.next(note, 1)
    return after is not None and after.pitch.midi == note.pitch.midi and after.onset == later.start


def _as_figured(degree: Degree, kind: str) -> Degree:
    """A suspension is called by its figure, whatever the chord: the 4 of 4–3, the 9 of 9–8."""
    figure = kind.split()[1].split("–")[0]
    label = "".join(sign for sign in degree.label if sign in "♭♯") + figure
    if label == degree.label:
        return degree
    return replace(degree, label=label, alternative=degree.label)

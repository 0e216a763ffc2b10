"""All that theory says about one song, worked out once and asked often."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from itertools import pairwise, product
from statistics import mean

from studio.music.chart import Chart
from studio.music.chord import Chord
from studio.music.key import Key, key_at
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.project.model import FactAsked, Numerals, Song
from studio.theory.form.phrases import group_phrases
from studio.theory.harmony.keys import InferredKey, infer_keys
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reading import Reading
from studio.theory.melody.degrees import NoteReading, read_melody
from studio.theory.parts.plays_chords import carries_a_tune
from studio.theory.rhythm.reading import GrooveReading, read_groove_over

_TUNE_NAMES = ("lead", "melody", "vocal", "voice", "tune", "singer")
_LOWEST_TUNE = 48  # MIDI number of C3: a part that lies below it on average is a bass (common practice)

KeyIn = tuple[Span, Key, InferredKey | None]
"""A stretch in one key, with how it was found where the project does not write it."""


class SongFacts:
    """Readings of a song's chart and parts. Keys that the project does not write are inferred from the chart."""

    def __init__(self, song: Song, numerals: Numerals, figured: bool = True) -> None:
        self.song = song
        self.style = numerals
        self._figured = figured
        self._melodies: dict[str, tuple[NoteReading, ...]] = {}
        self._numbers: dict[str, Mapping[Note, tuple[int, ...]]] = {}

    @property
    def whole(self) -> Span:
        """The whole song, its pickup included."""
        return Span(-self.song.time.pickup, max(self.song.end, -self.song.time.pickup))

    def span(self, fact: FactAsked) -> Span:
        """The stretch that a fact is asked of; the whole song where it names none."""
        return fact.span or self.whole

    def words(self, span: Span) -> str:
        """A stretch as people say it: its section's name where it is one, else its bars."""
        named = next((name for name, section in self.sections if section == span), "")
        return named or self.song.time.words(span)

    @cached_property
    def sections(self) -> tuple[tuple[str, Span], ...]:
        """The sections in the order of the song, by name."""
        return tuple((section.name, section.span) for section in self.song.sections)

    # Keys

    @cached_property
    def inferred(self) -> tuple[InferredKey, ...]:
        """The keys found in chords and notes; empty where the project writes them, or where there are neither."""
        if self.song.keys:
            return ()
        return infer_keys(
            self.song.chart, self.sections, melody=self.together(tuple(self.song.parts)), time=self.song.time
        )

    @cached_property
    def keys(self) -> tuple[tuple[Fraction, Key], ...]:
        """(quarters, key) from there on, ascending."""
        return self.song.keys or tuple((found.span.start, found.key) for found in self.inferred)

    def key(self, quarters: Fraction) -> Key | None:
        """The key at a moment; None where nothing tells."""
        return key_at(self.keys, quarters)

    def home(self, quarters: Fraction) -> Key | NoteName:
        """The key at a moment, or where nothing tells, the root of the chord; C where none sounds."""
        key, chord = self.key(quarters), self.chord(quarters)
        if key is not None:
            return key
        return chord.root if chord is not None else NoteName("C")

    def keys_in(self, span: Span) -> tuple[KeyIn, ...]:
        """The keys of a stretch, in order."""
        starts = [at for at, _ in self.keys]
        ends = [*starts[1:], max(self.whole.end, span.end)]
        found: list[KeyIn] = []
        for place, (_, key) in enumerate(self.keys):
            start = span.start if place == 0 else max(starts[place], span.start)
            if start < min(ends[place], span.end):
                inferred = self.inferred[place] if self.inferred else None
                found.append((Span(start, min(ends[place], span.end)), key, inferred))
        return tuple(found)

    # Chords

    @cached_property
    def all_readings(self) -> tuple[Reading, ...]:
        """One reading for each chord of the chart."""
        return self.readings_of(self.song.chart)

    def readings_of(self, chart: Chart) -> tuple[Reading, ...]:
        """One reading for each chord of a chart in the song's keys; none where no key is known."""
        if not self.keys:
            return ()
        sections = [span for _, span in self.sections]
        return read_chart(chart, self.keys, self.style, figured=self._figured, sections=sections)

    def readings(self, span: Span) -> tuple[Reading, ...]:
        """What each chord of the span is; chords that hang over its edges are cut to it."""
        return _within(self.all_readings, span)

    def written_otherwise(self, span: Span) -> tuple[tuple[Reading, ...], ...]:
        """The same readings in every style of numerals, figured and not: other ways to write one thing."""
        return tuple(_within(readings, span) for readings in self._in_all_styles)

    @cached_property
    def _in_all_styles(self) -> tuple[tuple[Reading, ...], ...]:
        styles: tuple[Numerals, ...] = ("relative-to-major", "common-practice")
        ways = product(styles, (True, False)) if self.keys else ()
        return tuple(read_chart(self.song.chart, self.keys, style, figured=way) for style, way in ways)

    def reading_at(self, quarters: Fraction) -> Reading | None:
        """What the chord is that sounds at a moment."""
        return next((r for r in self.all_readings if r.at.start <= quarters < r.at.end), None)

    def chord(self, quarters: Fraction) -> Chord | None:
        """The chord that is written at a moment."""
        at = self.song.chart.at(quarters)
        return at.chord if at is not None else None

    def harmony_spans(self, span: Span) -> tuple[Span, ...]:
        """The stretches of one harmony each; bars, where no chords are written."""
        chords = tuple(at.span for at in self.song.chart.within(span))
        if chords:
            return chords
        starts = [max(start, span.start) for _, start in self.song.time.barlines(span)] or [span.start]
        return tuple(Span(start, end) for start, end in pairwise([*starts, span.end]) if start < end)

    def phrases(self, span: Span) -> tuple[Span, ...]:
        """The phrases of a stretch as its tune and chords part them; none where only a norm would decide."""
        found = group_phrases(span, self.song.time, self.readings(span), self.tune(span))
        return tuple(phrase.span for phrase in found.phrases) if found.heard else ()

    # Parts

    def notes(self, part: str, span: Span) -> tuple[Note, ...]:
        """The notes of a part that sound within the span."""
        notes = self.song.parts[part].part.notes
        return tuple(note for note in notes if note.sounds_in(span))

    def numbers(self, part: str) -> Mapping[Note, tuple[int, ...]]:
        """The places in a part of each of its notes; notes that are alike have several."""
        if part not in self._numbers:
            found: dict[Note, tuple[int, ...]] = {}
            for place, note in enumerate(self.song.parts[part].part.notes):
                found[note] = (*found.get(note, ()), place)
            self._numbers[part] = found
        return self._numbers[part]

    def together(self, parts: Sequence[str]) -> tuple[Note, ...]:
        """The notes of several parts as one, in the order of time."""
        notes = (note for name in parts for note in self.song.parts[name].part.notes)
        return tuple(sorted(notes, key=lambda note: (note.onset, note.pitch.midi)))

    @cached_property
    def lead(self) -> str | None:
        """The part that carries the tune: the one so named, else the highest that is a line above the bass.

        A part of chords is no tune, nor is one that breaks them; without a tune there is None.
        """
        for name in self.song.parts:
            if any(word in name.casefold() for word in _TUNE_NAMES):
                return name
        lines = [name for name in self._heights if self._may_be_a_tune(name)]
        return max(lines, key=lambda name: self._heights[name], default=None)

    def _may_be_a_tune(self, name: str) -> bool:
        is_bass = "bass" in name.casefold() or self._heights[name] < _LOWEST_TUNE
        return not is_bass and carries_a_tune(self.song.parts[name].part.notes, self.song.chart)

    def tune(self, span: Span) -> tuple[Note, ...]:
        """The notes of the lead that sound within the span."""
        return self.notes(self.lead, span) if self.lead is not None else ()

    @cached_property
    def _heights(self) -> dict[str, float]:
        """The mean pitch of each part that has notes, as a MIDI number."""
        parts = ((name, part.part.notes) for name, part in self.song.parts.items())
        return {name: mean(note.pitch.midi for note in notes) for name, notes in parts if notes}

    def melody(self, part: str, span: Span) -> tuple[NoteReading, ...]:
        """What each note of a part is over its chord."""
        return tuple(reading for reading in self.whole_melody(part) if reading.note.sounds_in(span))

    def whole_melody(self, part: str) -> tuple[NoteReading, ...]:
        """What each note of a part is over its chord, from the first to the last."""
        if part not in self._melodies:
            lowest = min(self._heights, key=lambda name: self._heights[name], default=None)
            self._melodies[part] = read_melody(
                self.song.parts[part].part.notes,
                self.song.chart,
                keys=self.keys,
                time=self.song.time,
                bass=part == lowest and len(self._heights) > 1,
            )
        return self._melodies[part]

    # Grooves

    def groove(self, name: str, span: Span | None) -> GrooveReading:
        """What a groove does; one that was played, over a stretch or from its first bar to its last."""
        return read_groove_over(self.song.grooves[name], self.song.time, span)


def _within(readings: Sequence[Reading], span: Span) -> tuple[Reading, ...]:
    """The readings whose chords sound in a span, cut to it."""
    shared = ((reading, span.intersection(reading.at.span)) for reading in readings)
    return tuple(
        replace(reading, at=replace(reading.at, start=both.start, length=both.length))
        for reading, both in shared
        if both is not None and both.length
    )

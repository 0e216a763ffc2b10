"""All that theory says about one song, worked out once and asked often."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cached_property

from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.project.model import FactAsked, Numerals, Song
from studio.theory.harmony.keys import InferredKey, infer_keys
from studio.theory.harmony.numerals import read_chart
from studio.theory.harmony.reading import Reading
from studio.theory.melody.degrees import NoteReading, read_melody, reading_at
from studio.theory.wording import degree_words, progression_words
from studio.timeline.plan import Answer


class SongFacts:
    """Readings of a song's chart and parts. Keys that the project does not write are inferred from the chart."""

    def __init__(self, song: Song, numerals: Numerals) -> None:
        self.song = song
        self._style = numerals

    @cached_property
    def inferred(self) -> tuple[InferredKey, ...]:
        """The keys read from the chart; empty where the project writes them."""
        if self.song.keys or not self.song.chart.chords:
            return ()
        return infer_keys(
            self.song.chart, tuple((section.name, section.span) for section in self.song.sections)
        )

    @cached_property
    def keys(self) -> tuple[tuple[Fraction, Key], ...]:
        """(quarters, key) from there on, ascending."""
        return self.song.keys or tuple((found.span.start, found.key) for found in self.inferred)

    def key(self, quarters: Fraction) -> Key | None:
        """The key at a moment; None where nothing tells."""
        if not self.keys:
            return None
        return self.keys[max(bisect_right([at for at, _ in self.keys], quarters) - 1, 0)][1]

    @cached_property
    def all_readings(self) -> tuple[Reading, ...]:
        if not self.keys:
            return ()
        return read_chart(self.song.chart, self.keys, self._style)

    def readings(self, span: Span) -> tuple[Reading, ...]:
        """What each chord of the span is; chords that hang over its edges are cut to it."""
        found = []
        for reading in self.all_readings:
            both = span.intersection(Span(reading.at.start, reading.at.end))
            if both and both.length:
                found.append(replace(reading, at=replace(reading.at, start=both.start, length=both.length)))
        return tuple(found)

    def notes(self, part: str, span: Span) -> tuple[Note, ...]:
        """The notes of a part that sound within the span."""
        notes = self.song.parts[part].part.notes
        return tuple(note for note in notes if note.onset < span.end and note.end > span.start)

    def melody(self, part: str, span: Span) -> tuple[NoteReading, ...]:
        """What each note of a part is over its chord."""
        return tuple(
            reading
            for reading in self._melody(part)
            if reading.note.onset < span.end and reading.note.end > span.start
        )

    def _melody(self, part: str) -> Sequence[NoteReading]:
        if part not in self._melodies:
            self._melodies[part] = read_melody(self.song.parts[part].part.notes, self.song.chart)
        return self._melodies[part]

    @cached_property
    def _melodies(self) -> dict[str, Sequence[NoteReading]]:
        return {}

    def answer(self, fact: FactAsked) -> Answer:
        """The words that stand for a fact of the project, and why."""
        return self._numerals(fact) if fact.kind == "numerals" else self._degree(fact)

    def _numerals(self, fact: FactAsked) -> Answer:
        assert fact.span, "the project room gives such a fact its span"
        readings, where = self.readings(fact.span), self.song.time.words(fact.span)
        reasons = " ".join(dict.fromkeys(reading.reason for reading in readings if reading.reason))
        return Answer(fact.name, fact.kind, progression_words(readings), where, reasons)

    def _degree(self, fact: FactAsked) -> Answer:
        assert fact.part and fact.at is not None, "the project room gives such a fact its part and moment"
        reading = reading_at(self._melody(fact.part), fact.at)
        assert reading, "the project room has seen a note and a chord there"
        return Answer(
            fact.name, fact.kind, degree_words(reading), self.song.time.moment(fact.at), reading.reason
        )

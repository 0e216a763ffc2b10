"""Reading a written line over the chart: each note's degree, and what kind of tone it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from studio.music.chart import Chart
from studio.music.key import Key, key_at
from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.melody.beats import Beat, beat_at
from studio.theory.melody.blue_notes import blue_note, blues_keys
from studio.theory.melody.chord_tones import name_chord_tone
from studio.theory.melody.chords_under import ChordsUnder, is_tone
from studio.theory.melody.colour_tones import colour_tone
from studio.theory.melody.degree import Degree, as_colour, degree_over, in_passing_up
from studio.theory.melody.lines import Lines
from studio.theory.melody.non_chord_tones import name_non_chord_tone
from studio.theory.melody.note_reading import NoteReading
from studio.theory.melody.scale_degree import NoteInKey, note_in_key
from studio.theory.melody.setting import Setting
from studio.theory.melody.suspensions import as_figured, in_chains
from studio.theory.melody.tone import Tone
from studio.theory.melody.traits import is_pushed, with_traits

__all__ = ["Degree", "NoteReading", "degree_over", "read_melody", "reading_at"]


def read_melody(
    notes: Sequence[Note],
    chart: Chart,
    *,
    keys: Sequence[tuple[Fraction, Key]] = (),
    time: SongTime | None = None,
    bass: bool = False,
) -> tuple[NoteReading, ...]:
    """Read each note against each chord that sounds with it, in order of time.

    ``keys``: (quarters, key) from there on, ascending; ``time``: where the beats are; ``bass``: whether this
    part is the song's lowest voice, whose suspensions have other figures (2–3). In a part of several voices
    the lowest is found from the notes. How voices are followed is said in ``lines``.
    """
    reader = _Reader(notes, chart, keys, time, bass)
    return tuple(sorted(reader.read(), key=lambda reading: (reading.span.start, reading.note.pitch.midi)))


def reading_at(readings: Sequence[NoteReading], quarters: Fraction) -> NoteReading | None:
    """The reading that holds at a moment; of several, the one that started last, and then the highest."""
    sounding = [reading for reading in readings if reading.span.contains(quarters)]
    return max(sounding, key=lambda reading: (reading.note.onset, reading.note.pitch.midi), default=None)


class _Reader:
    """One part over one chart."""

    def __init__(
        self,
        notes: Sequence[Note],
        chart: Chart,
        keys: Sequence[tuple[Fraction, Key]],
        time: SongTime | None,
        bass: bool,
    ) -> None:
        self.lines = Lines(notes)
        self.chords = ChordsUnder(chart, self.lines.notes)
        self.keys, self.time = keys, time
        self.blues = blues_keys(chart, keys)
        self.lowest = set(range(len(notes))) if bass else self.lines.lowest_of_several()

    def read(self) -> list[NoteReading]:
        found = [(place, one) for place in range(len(self.lines.notes)) for one in self._note(place)]
        suspended = [place for place, reading in found if reading.kind.startswith("suspension")]
        chained = in_chains(suspended, self.lines)
        return [
            replace(reading, traits=(*reading.traits, "chain"))
            if place in chained and reading.kind.startswith("suspension")
            else reading
            for place, reading in found
        ]

    def _note(self, place: int) -> Iterator[NoteReading]:
        sounding = self.chords.under[place]
        if not sounding:
            yield self._without_chord(place)
        for at in sounding:
            key = key_at(self.keys, max(self.lines.notes[place].onset, at.start))
            yield self._over(Setting(place, at, self.lines, self.chords, key))

    def _over(self, setting: Setting) -> NoteReading:
        degree = degree_over(setting.pitch.name, setting.chord)
        in_key = self._in_key(setting.note, setting.span.start)
        if is_tone(setting.pitch, setting.at):
            tone = name_chord_tone(setting, degree)
            if is_pushed(setting, self.time):
                tone = replace(tone, traits=(*tone.traits, "pushed"))
        else:
            tone = self._foreign(setting, degree, in_key)
            tone = with_traits(tone, setting, degree, in_key, self.time)
            degree = _by_what_it_does(degree, tone, setting)
        return NoteReading(
            note=setting.note, chord_at=setting.at, degree=degree, kind=tone.kind, reason=tone.reason,
            span=setting.span, traits=tone.traits, scale_degree=in_key, approach=setting.approach,
            departure=setting.departure, beat=self._beat(setting.span.start),
            next_chord=setting.chord_after if tone.kind == "anticipation" or "pushed" in tone.traits else None,
            sureness=tone.sureness, runner_up=tone.runner_up,
        )  # fmt: skip

    def _foreign(self, setting: Setting, degree: Degree, in_key: NoteInKey | None) -> Tone:
        """The name of a note that is no tone of its chord: a blue note, a colour, or by how it moves."""
        tone = name_non_chord_tone(setting, setting.place in self.lowest)
        blue = blue_note(tone, setting, degree, in_key, setting.key in self.blues)
        return blue or colour_tone(tone, setting, degree, self.time) or tone

    def _without_chord(self, place: int) -> NoteReading:
        note = self.lines.notes[place]
        return NoteReading(
            note, None, None, "no chord", f"No chord sounds under {note.pitch.name}.", Span(note.onset, note.end),
            scale_degree=self._in_key(note, note.onset),
            approach=self.lines.approach(place),
            departure=self.lines.departure(place),
            beat=self._beat(note.onset),
        )  # fmt: skip

    def _beat(self, quarters: Fraction) -> Beat | None:
        return None if self.time is None else beat_at(quarters, self.time)

    def _in_key(self, note: Note, quarters: Fraction) -> NoteInKey | None:
        key = key_at(self.keys, quarters)
        return None if key is None else note_in_key(note.pitch.name, key)


def _by_what_it_does(degree: Degree, tone: Tone, setting: Setting) -> Degree:
    """What is suspended over a root is called by its figure; in the bass, figures count from above.

    A raised root that passes up is ♯1, and a lowered third that colours a dominant ♯9.
    """
    if tone.kind == "colour tone":
        return as_colour(degree, setting.chord)
    if tone.kind == "passing" and setting.goes.semitones > 0:
        return in_passing_up(degree)
    over_root = setting.chord.bass in (None, setting.chord.root)
    if tone.kind.startswith("suspension") and over_root and "bass" not in tone.traits:
        return as_figured(degree, tone.kind)
    return degree

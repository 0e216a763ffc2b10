"""What a changed pass sounds like where it is not as written: for pictures, which must not tell of what is not heard.

Each change of an excerpt's `instead` is of one thing that is played in it: the chart's chords, or a part.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.project.model import Excerpt, Instead, Play
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import listed
from studio.timeline.clock import Heard
from studio.timeline.examples import changes_in
from studio.timeline.heard import RATE, nearest_sample
from studio.timeline.playing import replaced, tones_of
from studio.timeline.playing.chart_chords import chords_played
from studio.timeline.playing.other_chord import are_chords
from studio.timeline.playing.part_notes import note_strokes, notes_played, with_changes
from studio.timeline.playing.read_instead import chord_or_rest, is_rest, note_or_rest
from studio.timeline.song_facts import SongFacts

_LEFT, _RIGHT = 2, 1
"""Staves, as `Note` counts them."""

_Struck = tuple[Span, int]
"""A key that is held over a stretch, and its MIDI number."""


@dataclass(frozen=True)
class Changed:
    """A stretch (quarters) in which every second pass sounds otherwise than is written.

    `part` is whose notes are changed, "" for the chart's chords. `written` is what is written there and `sound` what
    sounds instead, as people say them: "Gm" and "G", "C♯5" and "D5", or "nothing". `chord` is the chord that sounds;
    None where it is single notes that are changed, or where nothing sounds. `reading` is what that chord is in its
    key, None where no key is known. `notes` are all that is played of the changed thing within the stretch.
    """

    span: Span
    part: str
    written: str
    sound: str
    chord: Chord | None = None
    reading: Reading | None = None
    notes: tuple[Note, ...] = ()

    @property
    def of_harmony(self) -> bool:
        """Whether the chord that is written does not sound; a single note of a tune leaves the harmony as it is."""
        return not self.part or self.chord is not None


def changes_of(excerpt: Excerpt, facts: SongFacts) -> tuple[Changed, ...]:
    """The changes of an excerpt, in order; none where it has none, or where they cannot be played."""
    if not excerpt.instead:
        return ()
    time = facts.song.time
    span = Span(time.quarters_at(excerpt.start), time.quarters_at(excerpt.end + excerpt.tail))
    found: list[Changed] = []
    for play in excerpt.plays:
        changes = changes_in(excerpt, play, span)
        of = _of_chords if play.what == "chords" else _of_part
        with suppress(ValueError):  # who plans the excerpt complains of it
            found += of(play, span, changes, facts) if changes else ()
    return tuple(sorted(found, key=lambda one: (one.span.start, one.part)))


def unheard(passes: Iterable[Heard], heard: Sequence[Heard]) -> tuple[Heard, ...]:
    """What of the passes is not told of by the clock: the stretches that sound otherwise."""
    found: list[Heard] = []
    for one in passes:
        at, end = one.source, one.source + one.length
        kept = [piece for piece in heard if one.clip <= piece.clip and piece.end <= one.end]
        for start, stop in [*((piece.source, piece.source + piece.length) for piece in kept), (end, end)]:
            if at < start:
                found.append(Heard(one.clip_time(at), at, start - at, one.speed))
            at = stop
    return tuple(found)


# The chart's chords


def _of_chords(play: Play, span: Span, instead: Sequence[Instead], facts: SongFacts) -> Iterator[Changed]:
    changed = [piece for piece in chords_played(facts, span, instead) if piece.changed]
    readings = _readings([(piece.span, piece.chord) for piece in changed], facts)
    struck = _struck(play, span, instead, facts)
    for piece, reading in zip(changed, readings, strict=True):
        yield Changed(
            span=piece.span,
            part="",
            written=_chords_in(piece.span, facts),
            sound=piece.chord.text if piece.chord else "nothing",
            chord=piece.chord,
            reading=reading,
            notes=_under_two_hands(piece.chord, piece.span, struck),
        )


def _under_two_hands(chord: Chord | None, span: Span, struck: Iterable[_Struck]) -> tuple[Note, ...]:
    """The keys of a chord over a stretch: the lowest is the bass, in the left hand."""
    held = [(both, midi) for at, midi in struck if (both := at.intersection(span)) and both.length]
    if chord is None or not held:
        return ()
    lowest, names = min(midi for _, midi in held), chord.notes()
    return tuple(_note(at, midi, names, _LEFT if midi == lowest else _RIGHT) for at, midi in held)


def _struck(play: Play, span: Span, instead: Sequence[Instead], facts: SongFacts) -> list[_Struck]:
    """What is played in a changed pass, from its samples back on the song's clock.

    A tone's ends were rounded to samples: they are put back on the moments of the song that they are nearest to.
    """
    time = facts.song.time
    written = facts.notes(play.name, span) if play.what == "part" else ()
    moments = {span.start, span.end, *(at for _, at in time.barlines(span))}
    moments |= {at for note in written for at in (note.onset, note.end)}
    moments |= {at for change in instead for at in (change.span.start, change.span.end)}
    moments |= {at for chord in facts.song.chart.within(span) for at in (chord.start, chord.end)}
    by_sample = {nearest_sample(time.seconds(at)): at for at in moments}
    tones = tones_of(play, span, facts, instead)
    ends = ((tone, by_sample.get(tone.start), by_sample.get(tone.start + tone.length)) for tone in tones)
    return [
        (
            Span(
                time.quarters_at(Fraction(tone.start, RATE)) if start is None else start,
                time.quarters_at(Fraction(tone.start + tone.length, RATE)) if end is None else end,
            ),
            tone.midi,
        )
        for tone, start, end in ends
    ]


def _readings(chords: Sequence[tuple[Span, Chord | None]], facts: SongFacts) -> list[Reading | None]:
    """What chords are where they stand, read among the written ones around them."""
    found = facts.readings_of(_with_chords(facts.song.chart, chords))
    at = {reading.at.start: reading for reading in found}
    return [at.get(span.start) if chord is not None else None for span, chord in chords]


def _chords_in(span: Span, facts: SongFacts) -> str:
    """The chords that are written in a stretch."""
    chords = [at.chord.text if at.chord else "N.C." for at in facts.song.chart.within(span) if at.length]
    return listed(dict.fromkeys(chords)) or "what is written"


def _with_chords(chart: Chart, chords: Sequence[tuple[Span, Chord | None]]) -> Chart:
    """The chart with other chords in some stretches."""
    kept = list(chart.chords)
    for span, _ in chords:
        kept = [piece for at in kept for piece in _outside(at, span)]
    more = [ChordAt(span.start, span.length, chord) for span, chord in chords]
    return Chart(tuple(sorted([*kept, *more], key=lambda at: at.start)))


def _outside(at: ChordAt, span: Span) -> Iterator[ChordAt]:
    """What is left of a chord outside a stretch."""
    if not at.span.overlaps(span):
        yield at
        return
    if at.start < span.start:
        yield replace(at, length=span.start - at.start)
    if span.end < at.end:
        yield ChordAt(span.end, at.end - span.end, at.chord)


# A part


def _of_part(play: Play, span: Span, instead: Sequence[Instead], facts: SongFacts) -> Iterator[Changed]:
    written = notes_played(facts, play.name, span)
    struck = _struck(play, span, instead, facts)
    found: list[tuple[Span, Instead, Chord | None]] = []
    for change in instead:
        chord = _chord_of(change, play, written, span, facts)
        found += [(one, change, chord) for one in replaced(play, span, facts, (change,))]
    found.sort(key=lambda one: one[0])
    read = iter(_readings([(one, chord) for one, _, chord in found if chord is not None], facts))
    for one, change, chord in found:
        names = chord.notes() if chord else _named(change, facts)
        yield Changed(
            span=one,
            part=play.name,
            written=_chords_in(one, facts) if chord else _notes_in(one, written),
            sound="nothing" if is_rest(change.sound) else _said(change, chord),
            chord=chord,
            reading=next(read) if chord is not None else None,
            notes=tuple(_as_played(struck, written, names, one)),
        )


def _chord_of(
    change: Instead, play: Play, written: Sequence[Note], span: Span, facts: SongFacts
) -> Chord | None:
    """The chord of a change of a part that plays chords there; None for a note, and for a rest."""
    if is_rest(change.sound):
        return None
    _, differing = with_changes(written, (change,), facts, play.name, span)
    meant = [stroke for stroke in note_strokes(written, facts, span) if stroke.span in differing]
    return chord_or_rest(change, facts.song.time) if are_chords(meant) else None


def _notes_in(span: Span, written: Sequence[Note]) -> str:
    """The notes that are written in a stretch and begin in it."""
    return listed(str(note.pitch) for note in written if span.contains(note.onset)) or "what is written"


def _named(change: Instead, facts: SongFacts) -> tuple[NoteName, ...]:
    note = note_or_rest(change, facts.song.time)
    return () if note is None else (note.name if isinstance(note, Pitch) else note,)


def _said(change: Instead, chord: Chord | None) -> str:
    """A change as it is printed, with accidentals for letters."""
    if chord is not None:
        return chord.text
    with suppress(ValueError):
        return str(Pitch.parse(change.sound))
    return str(NoteName.parse(change.sound))


def _as_played(
    struck: Iterable[_Struck], written: Sequence[Note], names: Sequence[NoteName], span: Span
) -> Iterator[Note]:
    """The keys that sound in a stretch: spelled as they are written where they are, in the hand that is nearest."""
    for at, midi in struck:
        if not at.overlaps(span):
            continue
        at_once = [note for note in written if note.sounds_at(at.start)]
        near = min(at_once, key=lambda note: (abs(note.pitch.midi - midi), -note.staff), default=None)
        own = [near.pitch.name] if near is not None and near.pitch.midi == midi else []
        yield _note(at, midi, [*own, *names], near.staff if near is not None else _RIGHT)


def _note(at: Span, midi: int, names: Sequence[NoteName], staff: int) -> Note:
    """A key as a note, named as one of some names where it is one of them."""
    pitch = next((_named_at(name, midi) for name in names if name.pc == midi % 12), None)
    return Note(at.start, at.length, pitch or Pitch.from_midi(midi), staff)


def _named_at(name: NoteName, midi: int) -> Pitch:
    """A name in the octave in which it has that MIDI number."""
    return Pitch(name, (midi - Pitch(name, 0).midi) // 12)

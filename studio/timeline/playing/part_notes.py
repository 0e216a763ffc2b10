"""A part's notes as they are written, and with some of them changed.

A change at a moment is of what sounds then; one over a stretch is of the notes that begin in it. The rhythm stays as it
is written, so that only the pitch differs. Where the part plays one note at a time a change names a note; where it
plays several at once it names a chord, laid out near the one that it replaces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.project.model import Instead
from studio.timeline.playing.accents import loud_at
from studio.timeline.playing.other_chord import are_chords, other_chord
from studio.timeline.playing.read_instead import chord_or_rest, is_rest, nearest, note_or_rest, where
from studio.timeline.playing.stroke import Stroke
from studio.timeline.song_facts import SongFacts


def notes_played(facts: SongFacts, part: str, span: Span) -> tuple[Note, ...]:
    """The notes of a part in a stretch. Raises ValueError where there are none."""
    if part not in facts.song.parts:
        raise ValueError(f"'{part}' is not a part of the song; name one of song: parts, or chords")
    notes = facts.notes(part, span)
    if not notes:
        raise ValueError(f"{part} plays nothing in {facts.words(span)}; name a stretch in which it plays")
    return notes


def note_strokes(notes: Sequence[Note], facts: SongFacts, span: Span) -> list[Stroke]:
    """The keys that go down for notes. One that is held into the stretch is struck where the stretch starts."""
    time = facts.song.time
    return [
        Stroke(Span(note.onset, note.end), note.pitch.midi, loud_at(max(note.onset, span.start), time))
        for note in notes
    ]


def with_changes(
    notes: Sequence[Note], changes: Sequence[Instead], facts: SongFacts, part: str, span: Span
) -> tuple[list[Stroke], list[Span]]:
    """The keys that go down with the changes made, and the stretches in which they differ. Raises ValueError."""
    kept = list(notes)
    strokes: list[Stroke] = []
    differing: list[Span] = []
    for change in changes:
        meant = _meant(notes, change, facts, part, span)
        if any(note not in kept for note in meant):
            raise ValueError(
                f"two changes are of one note at {where(change, facts.song.time)}; write one for each note"
            )
        kept = [note for note in kept if note not in meant]
        played = note_strokes(meant, facts, span)
        strokes += _otherwise(played, change, facts, part)
        differing += [stroke.span for stroke in played]
    return [*note_strokes(kept, facts, span), *strokes], differing


def _meant(notes: Sequence[Note], change: Instead, facts: SongFacts, part: str, span: Span) -> list[Note]:
    """The notes that a change is of."""
    place = change.span
    found = [note for note in notes if place.contains(note.onset)]
    if not found:
        found = [note for note in notes if note.sounds_in(place) or note.sounds_at(place.start)]
    inside = span.contains(place.start) or span.overlaps(place)
    if not found or not inside:
        raise ValueError(
            f"{part} plays no note at {where(change, facts.song.time)} that could be changed; "
            f"name a moment in {facts.words(span)} at which one sounds"
        )
    return found


def _otherwise(played: Sequence[Stroke], change: Instead, facts: SongFacts, part: str) -> list[Stroke]:
    """What is struck in the place of these keys."""
    if is_rest(change.sound):
        return []
    if are_chords(played):
        chord = chord_or_rest(change, facts.song.time)
        assert chord is not None
        found = other_chord(played, chord)
    else:
        note = note_or_rest(change, facts.song.time)
        assert note is not None
        found = [
            replace(one, midi=note.midi if isinstance(note, Pitch) else nearest(note, one.midi))
            for one in played
        ]
    if sorted(found, key=_order) == sorted(played, key=_order):
        raise ValueError(
            f"'{change.sound}' is what {part} plays at {where(change, facts.song.time)} already; name another, or rest"
        )
    return found


def _order(stroke: Stroke) -> tuple[Span, int]:
    return stroke.span, stroke.midi

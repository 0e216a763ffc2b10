"""What a song has where an excerpt plays something else instead."""

from __future__ import annotations

from collections.abc import Iterator

from studio.music.pitch import Pitch
from studio.project.model import Instead, Play, Song


def written_there(song: Song, play: Play, change: Instead) -> tuple[str, ...]:
    """Chords of the chart, or notes of a part, each once, in order; notes with their octave where `change` has one."""
    names = _chords(song, change) if play.what == "chords" else _notes(song, play, change)
    return tuple(dict.fromkeys(names))


def _chords(song: Song, change: Instead) -> Iterator[str]:
    at = song.chart.at(change.span.start)
    found = song.chart.within(change.span) if change.span.length else (at,) if at else ()
    return (str(one.chord) if one.chord else "no chord" for one in found)


def _notes(song: Song, play: Play, change: Instead) -> Iterator[str]:
    """Those that begin in the stretch, or else sound in it, as the player takes them."""
    place, notes = change.span, song.parts[play.name].part.notes
    found = [note for note in notes if place.contains(note.onset)]
    found = found or [note for note in notes if note.sounds_in(place) or note.sounds_at(place.start)]
    return (str(note.pitch) if _has_octave(change.sound) else str(note.pitch.name) for note in found)


def _has_octave(sound: str) -> bool:
    try:
        Pitch.parse(sound)
    except ValueError:
        return False
    return True

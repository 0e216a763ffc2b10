"""Drum parts out of MIDI files, stroke by stroke, in the timing in which they were played.

Strokes are read from channel 10, where General MIDI keeps the drums, and laid on the song's own bars; the file's
tempo does not matter. music21 reads the events; its scores would round them to a grid.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

from studio.music.groove import Drums, Stroke
from studio.music.kit import DRUM_CHANNEL, voice_of_key
from studio.music.songtime import SongTime
from studio.project.complaints import MisfitError

MIDI_ENDINGS = (".mid", ".midi")
_LARGEST = 20_000_000
_LOUDEST = 127


def read_drums(file: Path, time: SongTime) -> Drums:
    """The drums of a MIDI file. Raises MisfitError with one plain sentence."""
    called = f"'{file.name}'"
    if file.stat().st_size > _LARGEST:
        raise MisfitError(f"{called} is larger than {_LARGEST // 1_000_000} MB, which no drum part is")
    if _in_film_frames(file):
        raise MisfitError(f"{called} counts time in film frames; save it with ticks to the quarter note")
    try:
        midi = _opened(file)
        events = sorted(_events(midi), key=lambda event: event[0])
    except Exception as error:  # music21 raises what it likes on broken files, and none of it is for a user
        raise MisfitError(
            f"{called} cannot be read as MIDI; is it whole? (music21 stops with {type(error).__name__})"
        ) from None
    per_quarter = midi.ticksPerQuarterNote
    struck = [(Fraction(tick, per_quarter), event) for tick, event in events if _is_note_on(event)]
    drums = [(at, event) for at, event in struck if event.channel == DRUM_CHANNEL]
    if not drums:
        found = ", ".join(sorted({str(event.channel) for _, event in struck}, key=int))
        there = f"; its notes are on channel {found}" if found else ", nor any notes at all"
        raise MisfitError(
            f"{called} has nothing on channel {DRUM_CHANNEL}, where General MIDI keeps the drums{there}"
        )
    bar_1 = _bar_1(events, drums[0][0], time, per_quarter)
    strokes = {
        (at - bar_1, voice): Stroke(at - bar_1, voice, event.velocity / _LOUDEST)
        for at, event in sorted(drums, key=lambda drum: drum[1].velocity)
        for voice in [voice_of_key(event.pitch)]
    }
    return Drums(tuple(sorted(strokes.values(), key=lambda stroke: (stroke.onset, stroke.voice))))


def _in_film_frames(file: Path) -> bool:
    """Whether the header's division is of SMPTE kind: its highest bit is set (Standard MIDI Files 1.0)."""
    with file.open("rb") as opened:
        header = opened.read(14)
    return header[:4] == b"MThd" and len(header) == 14 and header[12] >= 0x80


def _opened(file: Path) -> Any:
    from music21 import midi

    read = midi.MidiFile()
    read.open(str(file))
    try:
        read.read()
    finally:
        read.close()
    return read


def _events(midi: Any) -> Iterator[tuple[int, Any]]:
    """(tick, event) of every event of every track."""
    for track in midi.tracks:
        tick = 0
        for event in track.events:
            if event.isDeltaTime():
                tick += event.time or 0
            else:
                yield tick, event


def _is_note_on(event: Any) -> bool:
    return bool(event.isNoteOn()) and (event.velocity or 0) > 0


def _bar_1(events: list[tuple[int, Any]], first: Fraction, time: SongTime, per_quarter: int) -> Fraction:
    """Where bar 1 starts in the file, in quarters from its start.

    A song without a pickup starts with the file. Else the file tells by its meters, when its first one lasts just
    as long as the pickup; or it begins with a full bar in which the drums rest until the pickup, or with the pickup.
    """
    if not time.pickup:
        return Fraction(0)
    full = time.meter(0).bar
    changes = [Fraction(tick, per_quarter) for tick, event in events if _is_meter(event) and tick]
    if changes and changes[0] in (time.pickup, full):
        return changes[0]
    return full if full - time.pickup <= first < full else time.pickup


def _is_meter(event: Any) -> bool:
    from music21 import midi

    return bool(event.type is midi.MetaEvents.TIME_SIGNATURE)

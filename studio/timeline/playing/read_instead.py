"""What a change says: another chord, another note, or nothing at all."""

from __future__ import annotations

from contextlib import suppress

from studio.music.chord import Chord
from studio.music.chord_reader import ChordError, is_no_chord, read_chord
from studio.music.pitch import NoteName, Pitch
from studio.music.songtime import SongTime
from studio.project.model import Instead

REST = "rest"


def is_rest(text: str) -> bool:
    """Whether it says that nothing sounds."""
    return text.strip().casefold() == REST or is_no_chord(text)


def where(change: Instead, time: SongTime) -> str:
    """The place of a change as people say it."""
    return time.words(change.span) if change.span.length else time.moment(change.span.start)


def chord_or_rest(change: Instead, time: SongTime) -> Chord | None:
    """The chord that a change names; None for a rest. Raises ValueError."""
    if is_rest(change.sound):
        return None
    try:
        return read_chord(change.sound)
    except ChordError as error:
        raise ValueError(
            f"'{change.sound}' cannot stand for a chord at {where(change, time)}: {error} Or write rest."
        ) from None


def note_or_rest(change: Instead, time: SongTime) -> Pitch | NoteName | None:
    """The note that a change names, with its octave or without; None for a rest. Raises ValueError."""
    if is_rest(change.sound):
        return None
    with suppress(ValueError):
        return Pitch.parse(change.sound)
    with suppress(ValueError):
        return NoteName.parse(change.sound)
    raise ValueError(
        f"'{change.sound}' cannot stand for a single note at {where(change, time)}; "
        "write one as F#4, one without its octave as F#, or rest"
    )


def nearest(name: NoteName, midi: int) -> int:
    """The MIDI number of a note nearest to another, at most a tritone away; of two as near the upper one."""
    above = (name.pc - midi) % 12
    return midi + (above if above <= 6 else above - 12)

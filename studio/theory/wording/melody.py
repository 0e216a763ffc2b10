"""Words for written lines and their notes."""

from __future__ import annotations

from studio.theory.melody.degrees import NoteReading


def degree_words(reading: NoteReading) -> str:
    """What a note is over its chord: "♭6"; "no chord" where none sounds."""
    return "no chord" if reading.degree is None else reading.degree.label

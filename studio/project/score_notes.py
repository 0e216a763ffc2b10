"""Notes, clefs and key signatures out of one music21 staff, as the program's own values."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.project.written_part import ClefName

Signatures = tuple[tuple[Fraction, int], ...]


def notes_of(
    staff: Any,
    number: int,
    bar_1: Fraction,
    key_at: Callable[[Fraction], Key | None] | None,
    signatures: Signatures,
) -> list[Note]:
    """Every pitched note of a staff, ties joined, grace notes left out.

    With `key_at` (for MIDI, which has keys of a keyboard and no spelling) notes are spelled as the key would.
    """
    joined: list[Note] = []
    held: dict[tuple[str, int], int] = {}  # by line or space: a sharp before a tie holds beyond the bar line
    for onset, length, pitch, tie in sorted(_sounding(staff), key=lambda sound: (sound[0], sound[2].ps)):
        at = onset - bar_1
        height = int(pitch.midi)
        line = (pitch.step, pitch.implicitOctave)
        before = held.pop(line, None)
        if before is not None and tie in ("stop", "continue") and joined[before].end == at:
            start = joined[before]
            joined[before] = Note(start.onset, start.length + length, start.pitch, number)
        else:
            before = len(joined)
            spelled = _pitch(pitch) if key_at is None else _spelled(height, at, key_at, signatures)
            joined.append(Note(at, length, spelled, number))
        if tie in ("start", "continue", "let-ring"):
            held[line] = before
    return joined


def _sounding(staff: Any) -> Iterator[tuple[Fraction, Fraction, Any, str | None]]:
    """(onset, length, music21 pitch, kind of tie) of each note head."""
    from music21 import chord, harmony, note

    for element in staff.flatten().notes:
        length = Fraction(element.duration.quarterLength)
        if isinstance(element, harmony.Harmony) or element.duration.isGrace or length <= 0:
            continue
        heads = element.notes if isinstance(element, chord.ChordBase) else (element,)
        for head in heads:
            if isinstance(head, note.Note):
                tie = head.tie or element.tie
                yield Fraction(element.offset), length, head.pitch, tie.type if tie is not None else None


GRACE_NOTES = "grace notes"
ARTICULATIONS = "articulations"
ORNAMENTS = "ornaments or fermatas"


def left_out(staves: list[Any]) -> tuple[str, ...]:
    """What the staves have that no note tells of, each kind once."""
    notes = [element for staff in staves for element in staff.recurse().notes]
    found = {
        GRACE_NOTES: any(note.duration.isGrace for note in notes),
        ARTICULATIONS: any(note.articulations for note in notes),
        ORNAMENTS: any(note.expressions for note in notes),
    }
    return tuple(name for name, there in found.items() if there)


def _pitch(pitch: Any) -> Pitch:
    alter = round(pitch.accidental.alter) if pitch.accidental is not None else 0
    return Pitch(NoteName(pitch.step, alter), pitch.implicitOctave)


def _spelled(
    height: int, at: Fraction, key_at: Callable[[Fraction], Key | None], signatures: Signatures
) -> Pitch:
    key = key_at(at)
    if key is None:
        sharps = [sharps for start, sharps in signatures if start <= at] or [signatures[0][1]]
        key = Key(NoteName.from_fifths(sharps[-1]), "major")
    return Pitch.from_midi(height, key)


def signatures_of(staff: Any, bar_1: Fraction) -> Signatures | None:
    """(from quarters, sharps or minus flats) as the staff has them; None where it has none."""
    found: list[tuple[Fraction, int]] = []
    for signature in staff.flatten().getElementsByClass("KeySignature"):
        at = Fraction(signature.offset) - bar_1
        if found and found[-1][0] == at:
            found.pop()
        found.append((at, max(-7, min(7, int(signature.sharps)))))
    return tuple(found) or None


def heard_signature(staves: list[Any]) -> Signatures:
    """A signature for music that states none, by the key that music21 hears in it (Krumhansl's profiles)."""
    from music21 import stream

    together = stream.Stream([note for staff in staves for note in staff.flatten().notes])
    return ((Fraction(0), int(together.analyze("key").sharps)),)


def clef_of(staff: Any, played: bool) -> ClefName:
    """The clef that the staff is written in, or for played notes the one that suits them.

    Guitar and bass are written an octave above sounding, which the clef then says with an 8 below it. In MIDI
    they are known by their program.
    """
    from music21 import clef

    if played and (usual := _usual_clef(staff)) is not None:
        return usual

    written = None if played else staff.flatten().getElementsByClass("Clef").first()
    if written is None:
        written = clef.bestClef(staff, recurse=True)
    octave_down = isinstance(written, clef.Treble8vbClef | clef.Bass8vbClef) or any(
        instrument.transposition is not None and instrument.transposition.semitones == -12
        for instrument in staff.recurse().getElementsByClass("Instrument")
    )
    names: dict[str | None, ClefName] = {"G": "treble", "F": "bass"}
    if octave_down:
        names = {"G": "treble 8vb", "F": "bass 8vb"}
    if written.sign == "C":
        return "tenor" if written.line == 4 else "alto"
    return names.get(written.sign, "treble")


_GUITARS, _BASSES = range(24, 32), range(32, 40)
"""Programs counted from 0: General MIDI Level 1 Sound Set, families Guitar and Bass."""


def _usual_clef(staff: Any) -> ClefName | None:
    """The clef of guitars and basses, by the MIDI program; None for what else may play."""
    programs = {instrument.midiProgram for instrument in staff.recurse().getElementsByClass("Instrument")}
    if programs and programs <= set(_GUITARS):
        return "treble 8vb"
    return "bass 8vb" if programs and programs <= set(_BASSES) else None

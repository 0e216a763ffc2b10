"""Short things to play, and music from music21's corpus, for the tests of this room."""

from fractions import Fraction

from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span

BAR = Span(Fraction(0), Fraction(4))


def played(text: str, staff: int = 1) -> tuple[Note, ...]:
    """Notes from "A3+C#4+E4:2 r:1 A4": pitches struck together and their length in quarters (1 if not said)."""
    notes: list[Note] = []
    at = Fraction(0)
    for token in text.split():
        names, _, written = token.partition(":")
        length = Fraction(written or 1)
        notes += [Note(at, length, Pitch.parse(name), staff) for name in names.split("+") if name != "r"]
        at += length
    return tuple(notes)


def eighths(text: str, staff: int = 1) -> tuple[Note, ...]:
    """Single notes of an eighth each: "C4 G4 E4 G4"."""
    return played(" ".join(f"{name}:1/2" for name in text.split()), staff)


def pitches(text: str) -> list[Pitch]:
    return [Pitch.parse(name) for name in text.split()]


def sonata(bars: int) -> tuple[Note, ...]:
    """The first bars of Mozart's sonata K. 545, both hands, as music21's corpus has them."""
    from music21 import corpus

    score = corpus.parse("mozart/k545/movement1_exposition")
    found = []
    for staff, part in enumerate(score.parts, 1):
        for note in part.measures(1, bars).flatten().notes:
            for pitch in note.pitches:
                name = NoteName(pitch.step, int(pitch.alter))
                length = Fraction(note.quarterLength)
                if length:
                    found.append(Note(Fraction(note.offset), length, Pitch(name, pitch.octave), staff))
    return tuple(found)

"""Scale degrees of notes, against music21."""

import pytest

from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.melody.scale_degree import note_in_key


@pytest.mark.parametrize(
    ("key", "note", "label", "classical", "name"),
    [
        ("A", "C#", "3", "3", "mediant"), ("A", "C", "♭3", "♭3", ""), ("A", "G#", "7", "7", "leading tone"),
        ("A minor", "C", "♭3", "3", "mediant"), ("A minor", "G", "♭7", "7", "subtonic"),
        ("A minor", "G#", "7", "♯7", "leading tone"), ("A minor", "F#", "6", "♯6", "submediant"),
        ("A minor", "Bb", "♭2", "♭2", ""), ("F# minor", "E#", "7", "♯7", "leading tone"),
        ("Db", "Gb", "4", "4", "subdominant"), ("C", "F#", "♯4", "♯4", ""),
    ],
)  # fmt: skip
def test_degrees(key: str, note: str, label: str, classical: str, name: str) -> None:
    found = note_in_key(NoteName.parse(note), Key.parse(key))
    assert (found.label(), found.label("common-practice"), found.name) == (label, classical, name)


@pytest.mark.parametrize("mode", ["major", "minor"])
def test_degrees_agree_with_music21(mode: str) -> None:
    """music21's ``Key.getScaleDegreeAndAccidentalFromPitch`` counts a minor key from its own scale."""
    from music21 import key, pitch

    for tonic in ("C", "F#", "Bb", "E", "Ab"):
        ours = Key.parse(f"{tonic} {mode}")
        theirs = key.Key(tonic.replace("b", "-"), mode)
        for letter in "ABCDEFG":
            for alter in (-1, 0, 1):
                name = NoteName(letter, alter)
                number, accidental = theirs.getScaleDegreeAndAccidentalFromPitch(
                    pitch.Pitch(str(name).replace("♭", "-").replace("♯", "#"))
                )
                sign = int(accidental.alter) if accidental is not None else 0
                label = ("♯" * sign if sign > 0 else "♭" * -sign) + str(number)
                assert note_in_key(name, ours).label("common-practice") == label

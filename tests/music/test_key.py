"""Keys, against music21."""

from fractions import Fraction as F

import pytest

from studio.music.key import Key, key_at
from studio.music.pitch import NoteName

MAJORS = [NoteName.from_fifths(place) for place in range(-7, 8)]
KEYS = [Key(tonic, "major") for tonic in MAJORS] + [Key(tonic, "major").relative for tonic in MAJORS]


@pytest.mark.parametrize("key", KEYS, ids=str)
def test_scale_signature_and_relations_agree_with_music21(key: Key) -> None:
    from music21 import key as reference

    tonic = str(key.tonic).replace("♭", "-").replace("♯", "#")
    theirs = reference.Key(tonic, key.mode)
    assert key.signature == theirs.sharps
    names = [
        pitch.name.replace("-", "♭").replace("#", "♯") for pitch in theirs.getScale(key.mode).pitches[:7]
    ]
    assert [str(note) for note in key.scale()] == names
    assert key.relative.signature == key.signature
    assert str(key.relative.tonic) == theirs.relative.tonic.name.replace("-", "♭").replace("#", "♯")
    assert key.parallel.parallel == key
    assert key.relative.relative == key


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("F# minor", "F♯ minor"), ("A", "A major"), ("Bb major", "B♭ major"), ("f#m", "F♯ minor"),
        ("Am", "A minor"), ("C♯ minor", "C♯ minor"), ("e", "E minor"), ("bb", "B♭ minor"), ("Eb maj", "E♭ major"),
        ("D Minor", "D minor"), ("CM", "C major"), ("c major", "C major"),
    ],
)  # fmt: skip
def test_keys_as_people_write_them(text: str, printed: str) -> None:
    assert str(Key.parse(text)) == printed
    assert Key.parse(printed) == Key.parse(text)


@pytest.mark.parametrize("text", ["", "H minor", "A dorian", "minor", "F## ## major", "12"])
def test_what_is_no_key_is_refused_in_words(text: str) -> None:
    with pytest.raises(ValueError, match="is not a key: write a note and a mode"):
        Key.parse(text)


def test_the_key_of_a_moment() -> None:
    keys = ((F(0), Key.parse("A")), (F(16), Key.parse("F# minor")))
    assert [str(key_at(keys, F(at))) for at in (-1, 0, 15, 16, 99)] == [
        "A major", "A major", "A major", "F♯ minor", "F♯ minor",
    ]  # fmt: skip
    assert key_at((), F(0)) is None


@pytest.mark.parametrize("key", KEYS, ids=str)
def test_the_notes_of_a_scale_lie_above_its_tonic(key: Key) -> None:
    # half steps of the major and the natural minor scale, as in any harmony textbook
    steps = [0, 2, 4, 5, 7, 9, 11] if key.mode == "major" else [0, 2, 3, 5, 7, 8, 10]
    assert [key.above(note) for note in key.scale()] == steps

"""What a person may write about a fretboard, and what is said where it does not fit."""

from __future__ import annotations

import pytest
from pydantic import ValidationError

from studio.drawing.fretting.options import FretboardOptions, read_frets, read_scale


@pytest.mark.parametrize(("text", "frets"), [("0-5", (0, 5)), ("5 - 9", (5, 9)), ("7–12", (7, 12))])
def test_a_range_of_frets(text: str, frets: tuple[int, int]) -> None:
    assert read_frets(text) == frets


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        ("A minor pentatonic", "A C D E G"), ("f# Dorian", "F♯ G♯ A B C♯ D♯ E"), ("Bb major", "B♭ C D E♭ F G A"),
        ("E minor", "E F♯ G A B C D"), ("C blues", "C E♭ F G♭ G B♭"),
    ],
)  # fmt: skip
def test_a_scale(text: str, notes: str) -> None:
    tonic, scale = read_scale(text)
    assert " ".join(str(note) for note in scale.notes(tonic)) == notes


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("frets", "5", "'5' is not a range of frets; write the first and the last, as 0-5 or 5-9"),
        ("frets", "9-5", "the last is at least two past the first"),
        ("frets", "0-30", "frets go from 0 to 24"),
        ("scale", "A", "'A' is not a scale; write its tonic and its name, as A minor pentatonic"),
        ("scale", "A jolly", "'jolly' is not a scale that is known"),
        ("tuning", "E A D G B E", "String 1, “E”, lacks its octave"),
        ("shape", "x32o10", "String 4 of “x32o10” is “o”"),
        ("shapes", {"H": "x32010"}, "H"),
        ("shapes", {"C": "x32z10"}, "String 4"),
    ],
)
def test_what_does_not_fit_is_said_in_a_sentence(key: str, value: object, says: str) -> None:
    with pytest.raises(ValidationError) as caught:
        FretboardOptions(kind="fretboard", **{key: value})  # type: ignore[arg-type]
    assert says in str(caught.value.errors()[0]["ctx"]["error"])


def test_every_option_is_described_in_a_short_line() -> None:
    for name, field in FretboardOptions.model_fields.items():
        if name not in ("kind", "where", "when", "slot", "pass_"):
            assert field.description and len(field.description) <= 100, name

"""Which note is heard as the bass of what is not struck at once."""

from fractions import Fraction as F

import pytest

from studio.theory.parts.bass_and_name import name_over_bass, over_bass
from tests.theory.parts.played import pitches, played


@pytest.mark.parametrize(
    ("what", "notes", "bass"),
    [
        ("struck together", "C3+E4+G4 G2+E4+G4", "C3"),
        ("an arpeggio that rises", "A3 C4 E4", "A3"),
        ("an arpeggio that falls to its root", "E5 C5 A4", "A4"),
        ("a bass line that dips below its root", "D2 A1 F#2 D2", "D2"),
        ("an inversion", "C#3 A3 E4", "C♯3"),
    ],
)
def test_the_bass(what: str, notes: str, bass: str) -> None:
    found = over_bass(played(notes), F(0))
    assert str(found[0]) == bass, what
    assert {pitch.name for pitch in found} == {note.pitch.name for note in played(notes)}


def test_what_is_held_over_does_not_start_alone() -> None:
    held = played("G4:6 r:-2 D3+A3+D4:4")
    assert str(over_bass(held, F(4))[0]) == "D3"
    assert over_bass((), F(0)) == ()


def test_a_single_note_has_no_name() -> None:
    assert name_over_bass(tuple(pitches("A3 A4")), None) is None
    named = name_over_bass(tuple(pitches("A3 C#4 E4")), None)
    assert named is not None
    assert named.chord is not None
    assert named.chord.text == "A"

"""Suspended notes in what sounds: 4–3 has a name, other held notes only delay the chord (any textbook; from memory)."""

from fractions import Fraction as F

import pytest

from studio.music.chord_reader import read_chord
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.parts.sounding import Sounding, sounding_over, sounding_through
from tests.theory.parts.played import BAR, played

NEXT = Span(F(4), F(8))


def held_over(pitch: str, goal: str, chord: str) -> tuple[Note, ...]:
    """A bar of a chord into which ``pitch`` is held for half a bar before it goes on to ``goal``."""
    held = Note(F(0), F(6), Pitch.parse(pitch))
    steps = Note(F(6), F(2), Pitch.parse(goal))
    return held, steps, *(Note(F(4), F(4), Pitch.parse(name)) for name in chord.split())


def names(found: tuple[Sounding, ...]) -> list[str]:
    return [one.chord.text for one in found if one.chord is not None]


@pytest.mark.parametrize(
    ("held", "goal", "chord", "sounds", "passing"),
    [
        ("G4", "F#4", "D3 A3 D4", "Dsus4 D", ""),
        ("G4", "F#4", "D3 C4 D4", "D7sus4 D7", ""),
        ("B4", "A4", "D3 F#4 D4", "D", "B"),
        ("E4", "D4", "D3 F#3 A3", "D", "E"),
        ("D5", "C5", "G3 E4 G4", "C/G", "D"),
    ],
)
def test_what_is_held_over_and_steps_down(
    held: str, goal: str, chord: str, sounds: str, passing: str
) -> None:
    found = sounding_over(held_over(held, goal, chord), NEXT)
    assert names(found) == sounds.split()
    assert [str(name) for one in found for name in one.passing] == passing.split()


def test_the_reason_tells_held_notes_from_passing_ones() -> None:
    (one,) = sounding_over(held_over("B4", "A4", "D3 F#4 D4"), NEXT)
    assert one.reason == "The notes of D. B is held over from before."


def test_a_chord_tone_that_is_held_over_stays() -> None:
    """E is the fifth of A; the D to which it goes on passes, if it goes on."""
    notes = (*held_over("E5", "D5", "A3 C#4 A4"), Note(F(8), F(4), Pitch.parse("C#5")))
    assert names(sounding_over(notes, NEXT))[0] == "A"


def test_what_resolves_is_named_by_its_resolution() -> None:
    """D G C over D are called G sus by themselves; before D7 they are its suspension."""
    first, second = sounding_through(played("D3+D4+G4+C5:4 D3+D4+F#4+C5:4"), [BAR, NEXT])
    assert (first.chord, first.resolves_to) == (read_chord("D7sus4"), read_chord("D7"))
    assert second.chord == read_chord("D7")


def test_only_the_third_resolves_a_fourth() -> None:
    first, _ = sounding_through(played("A3+D4+E4:4 A3+B3+E4:4"), [BAR, NEXT])
    assert (first.chord, first.resolves_to) == (read_chord("Asus4"), None)

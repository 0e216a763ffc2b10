"""Notes that pass between chord tones: what any harmony textbook calls passing and neighbour notes (from memory)."""

from dataclasses import replace

import pytest

from studio.theory.parts.ornaments import is_step, ornaments, passing_words
from tests.theory.charts import line
from tests.theory.parts.played import BAR, played


@pytest.mark.parametrize(
    ("what", "notes", "passing"),
    [
        ("passing up", "C4:1/2 D4:1/2 E4 G4:2", "D4"),
        ("passing down", "G4 E4:1/2 D4:1/2 C4:2", "D4"),
        ("accented, but between two chord tones", "C4 E4:1/2 G4:1/2 F4:1/2 E4:3/2", "F4"),
        ("upper neighbour", "G4:1/2 A4:1/2 G4 E4 C4", "A4"),
        ("lower neighbour", "C4 E4:1/2 D#4:1/2 E4 G4", "D♯4"),
        ("a run keeps what stands on the beat", "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:2", "D4 F4"),
        ("left by leap", "C4:1/2 D4:1/2 G4 E4:2", ""),
        ("reached by leap", "C4:1/2 A4:1/2 G4 E4:2", ""),
        ("too long", "C4 D4:3/2 E4:3/2", ""),
        ("a note that also leaps is no ornament", "C4:1/2 D4:1/2 E4 G4 D4", ""),
        ("the seventh of a broken chord", "D4:1/2 G4:1/2 F4:1/2 G4:1/2 B4:2", ""),
        ("a lonely line", "C4:1/2 D4:1/2 E4:1/2 D4:1/2 C4:2", ""),
    ],
)
def test_what_passes(what: str, notes: str, passing: str) -> None:
    found = sorted(ornaments(line(notes), BAR), key=lambda note: note.onset)
    assert " ".join(str(note.pitch) for note in found) == passing, what


def test_a_bass_walks_under_a_repeated_chord() -> None:
    walk = played("C3+E4+G4 B2+E4+G4 A2+E4+G4 G2+E4+G4")
    assert {str(note.pitch) for note in ornaments(walk, BAR)} == {"B2", "A2"}
    changing = played("C3+E4+G4 B2+D4+G4 A2+C4+E4 G2+B3+D4")
    assert "A2" not in {str(note.pitch) for note in ornaments(changing, BAR)}


@pytest.mark.parametrize(
    ("what", "notes", "following", "passing"),
    [
        ("walking down into the next root", "B2 F#3 B2 A2", "G2", "A2"),
        ("a leading note into the next root", "G2 D3 B2 C#3", "D3", "C♯3"),
        ("an anticipation, reached by leap", "D3:2 A2:3/2 C3:1/2", "C3", "C3"),
        ("a root alone and a note that leads on", "C3:3 D3", "E3", "D3"),
        ("left by leap", "B2 F#3 B2 A2", "E3", ""),
    ],
)
def test_the_last_notes_lead_into_the_next_harmony(
    what: str, notes: str, following: str, passing: str
) -> None:
    later = [replace(note, onset=note.onset + 4) for note in line(following)]
    found = ornaments(line(notes), BAR, later)
    assert " ".join(str(note.pitch) for note in found) == passing, what
    assert ornaments(line(notes), BAR) == frozenset(), "nobody knows where they lead without it"


def test_nothing_passes_in_nothing() -> None:
    assert ornaments((), BAR) == frozenset()
    assert ornaments(line("C4"), BAR) == frozenset()


def test_steps() -> None:
    one, two, three, four = line("E4 F4 G4 G4")
    assert is_step(one, two)
    assert is_step(two, three)
    assert not is_step(one, three)
    assert not is_step(three, four)


def test_words() -> None:
    c, d, e = (note.pitch.name for note in line("C4 D4 E4"))
    assert passing_words([c]) == "C only passes"
    assert passing_words([c, d, e]) == "C, D and E only pass"

"""What is played beside what the chart says. The bars are our own."""

from fractions import Fraction as F

import pytest

from studio.music.chart import Chart
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.parts.against_chart import Played, against_chart
from tests.theory.charts import chart
from tests.theory.parts.played import played


def bar(symbol: str, notes: str) -> Played:
    (found,) = against_chart(played(notes), chart(symbol))
    return found


@pytest.mark.parametrize(
    ("symbol", "notes", "difference", "reason"),
    [
        ("A", "A3+C#4+E4:4", "", "A sounds as the chart says."),
        ("A", "A3 C#4 E4 A4", "", "A sounds as the chart says."),
        ("A/C#", "C#3+A3+E4:4", "", "A/C♯ sounds as the chart says."),
        ("A7", "A3+C#4+E4:4", "fewer", "The chart says A7; of it, only A, C♯ and E sound."),
        ("A", "A3+E4:4", "fewer", "The chart says A; of it, only A and E sound."),
        ("A", "C#3+A3+E4:4", "bass", "The chart says A; A/C♯ sounds."),
        ("A", "A3+C#4+E4+G4:4", "more", "The chart says A; A7 sounds."),
        ("A", "A3+B3+C#4+E4:4", "more", "The chart says A; Aadd9 sounds."),
        ("A", "A3+C4+E4:4", "other", "The chart says A; Am sounds."),
        ("F#m", "A3+C#4+E4:4", "other", "The chart says F♯m; A sounds."),
        ("E", "E3+A3+B3:2 E3+G#3+B3:2", "suspended", "The chart says E; Esus4, then E sounds."),
        ("E", "E3+A3+B3:4", "other", "The chart says E; Esus4 sounds."),
        ("C", "r:4", "silent", "The chart says C; no chord sounds."),
        ("C", "G4:4", "fewer", "The chart says C; of it, only G sounds."),
        ("C", "F4:4", "silent", "The chart says C; no chord sounds."),
        ("N.C.", "r:4", "", "No chord is written, and none sounds."),
        ("N.C.", "A3+C#4+E4:4", "other", "The chart has no chord here; A sounds."),
    ],
)
def test_both_are_said_in_one_sentence(symbol: str, notes: str, difference: str, reason: str) -> None:
    found = bar(symbol, notes)
    assert (found.difference, found.reason) == (difference, reason)
    assert found.contradicts == (difference in ("more", "other"))


def test_the_tune_may_pass_through() -> None:
    assert bar("A", "A3+C#4+E4:1 B4:1/2 C#5:1/2 D5:1/2 C#5:3/2").difference in ("", "fewer", "more")
    assert bar("A", "A3:1/2 B3:1/2 C#4:1/2 D4:1/2 E4:2").difference == ""


def test_a_suspension_resolves_across_the_bar_line() -> None:
    held, plain = against_chart(played("A3+D4+E4:4 A3+C#4+E4:4"), chart("Asus4 A"))
    assert (held.difference, plain.difference) == ("", "")
    assert held.soundings[0].resolves_to == plain.written.chord


def test_keys_decide_the_spelling() -> None:
    notes = [Note(F(0), F(4), Pitch.from_midi(number, Key.parse("Ab"))) for number in (61, 65, 68)]
    (found,) = against_chart(notes, chart("Db"), ((F(0), Key.parse("Ab")),))
    assert found.reason == "D♭ sounds as the chart says."


def test_no_chart_and_no_notes() -> None:
    assert against_chart(played("A3"), Chart(())) == ()
    assert [one.difference for one in against_chart((), chart("A D"))] == ["silent", "silent"]


def test_a_thousand_notes_are_read_whole() -> None:
    notes = played("C4+E4+G4+C5 A3+C4+E4+A4 F3+A3+C4+F4 G3+B3+D4+G4 " * 63)
    assert len(notes) > 1000
    song = chart("| C Am F G " * 63)
    found = against_chart(notes, song)
    assert {one.difference for one in found} == {""}

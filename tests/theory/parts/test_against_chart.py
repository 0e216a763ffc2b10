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


def test_a_tune_never_contradicts_the_chart() -> None:
    """Sung lines over plain triads: what they leave out and lean on is no other chord (common practice)."""
    song = chart("| C | G | Am | F . G . | C |")
    suspended = played("G4:2 C5:4 B4:2 B4:1 A4:1 C5:5 B4:1 C5:4")
    assert not any(one.contradicts for one in against_chart(suspended, song))
    pentatonic = played("A4 C5 D5 E5 G5 E5 D5 C5 E5 D5 C5 A4 G4 A4 A4:2")
    found = against_chart(pentatonic, chart("| Am | G | Am | G |"))
    assert not any(one.contradicts for one in found)
    assert found[1].reason == "The chart says G; a line of single notes goes over it."
    leaping = played("C5 A4 F4:2 G4 Bb4 D5:2 C5 F5 A5:2 Bb5 A5 G5:2 F5:2 F5:2 E5:4 F5:4")
    assert not any(one.contradicts for one in against_chart(leaping, chart("F C7 F Bb F/C C7 F")))


def test_a_walking_bass_is_no_chord() -> None:
    (found,) = against_chart(played("F3 Eb3 D3 C#3"), chart("F7"))
    assert (found.difference, found.contradicts) == ("line", False)


def test_broken_chords_may_contradict_it() -> None:
    found = against_chart(played("A3 C#4 E4 G4 D3 F#3 A3 D4"), chart("| A | Dm |"))
    assert [one.difference for one in found] == ["more", "other"]


def test_notes_that_are_not_in_the_chord() -> None:
    (found,) = against_chart(played("E4+F4:4"), chart("G"))
    assert found.reason == "The chart says G; E and F are not in it."


@pytest.mark.parametrize(("symbol", "difference"), [("Dm9", "fewer"), ("Dm7", "more")])
def test_a_rootless_voicing_is_heard_as_the_chart_says(symbol: str, difference: str) -> None:
    found = bar(symbol, "F4+A4+C5+E5:4")
    assert found.difference == difference
    assert [str(one.chord) for one in found.soundings] == ["Dm9"]


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

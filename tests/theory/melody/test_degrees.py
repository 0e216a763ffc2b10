"""Lines over charts. The shapes of the non-chord tones are those of any harmony textbook (from memory)."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chart import Chart
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.melody.degrees import read_melody, reading_at
from tests.theory.charts import COMMON_TIME, chart, line


def kinds(bars: str, notes: str) -> list[tuple[str, str, str]]:
    """Pitch, degree and kind of every reading."""
    found = read_melody(line(notes), chart(bars))
    return [(str(one.note.pitch), one.degree.label if one.degree else "", one.kind) for one in found]


@pytest.mark.parametrize(
    ("name", "bars", "notes", "which", "degree", "kind"),
    [
        ("held 4–3", "D A", "D5:5 C#5:3", 1, "4", "suspension 4–3"),
        ("struck again 4–3", "D A", "D5:4 D5:2 C#5:2", 1, "4", "suspension 4–3"),
        ("4–3 over a seventh is still a 4", "Dm7 G7", "C5:5 B4:3", 1, "4", "suspension 4–3"),
        ("held 9–8", "E A", "B4:6 A4:2", 1, "9", "suspension 9–8"),
        ("9–8 in minor", "C#m F#m", "G#4:6 F#4:2", 1, "9", "suspension 9–8"),
        ("♭9–8", "Dm E", "F5:6 E5:2", 1, "♭9", "suspension 9–8"),
        ("7–6 over a third in the bass", "G C/E", "D5:6 C5:2", 1, "2", "suspension 7–6"),
        ("6–5", "Am E", "C5:6 B4:2", 1, "♭6", "suspension 6–5"),
        ("the fourth of a sus chord", "Esus4 E", "A4:4 G#4:4", 0, "4", "suspension 4–3"),
        ("4–3 resolving as the chord changes", "D A F#m", "D5:8 C#5:4", 1, "4", "suspension 4–3"),
        ("retardation 7–8", "G C", "B4:6 C5:2", 1, "7", "retardation 7–8"),
        ("passing down", "C C", "G4:2 F4 E4", 1, "4", "passing"),
        ("the raised root passes up", "C7 C7", "C5 C#5 D5 r", 1, "♯1", "passing"),
        ("and leaps as a ♭9", "C7 C7", "G4 C#5:2 G4", 1, "♭9", "colour tone"),
        ("a lowered root is a 7", "G7 G7", "G4 Gb4 F4 r", 1, "7", "passing"),
        ("passing up, chromatic", "C C", "G4 G#4 A4 r G4", 1, "♯5", "passing"),
        ("upper neighbour", "Am", "E4 F4 E4", 1, "♭6", "neighbour"),
        ("lower neighbour, repeated", "C", "C5 B4:1/2 B4:1/2 C5:2", 2, "7", "neighbour"),
        ("anticipation struck again", "C . . G", "C5:5/2 B4:1/2 B4", 1, "7", "anticipation"),
        ("anticipation tied over", "C . . G", "C5:5/2 B4:3/2", 1, "7", "anticipation"),
        ("appoggiatura", "C", "C5 F5 E5", 1, "4", "appoggiatura"),
        ("escape", "C", "E5 F5 C5", 1, "4", "escape"),
        ("held and not resolved", "G C", "B4:8", 1, "7", "non-chord tone"),
        ("leapt to and from", "C", "C5 F5 C5", 1, "4", "non-chord tone"),
        ("no step across a rest", "C", "E5 r:2 F5", 1, "4", "non-chord tone"),
    ],
)
def test_shapes(name: str, bars: str, notes: str, which: int, degree: str, kind: str) -> None:
    found = kinds(bars if "|" not in bars and "." not in bars else f"| {bars} |", notes)[which]
    assert found[1:] == (degree, kind), name


def test_an_eleventh_is_a_fourth_only_where_it_is_suspended() -> None:
    """One rule (see the degree module): the chord decides, but a suspension is called by its figure."""
    assert kinds("Dm7 G7", "C5:5 B4:3")[1] == ("C5", "4", "suspension 4–3")
    assert kinds("Em G7", "B4:4 C5 B4:3")[1] == ("C5", "11", "neighbour")
    assert kinds("Em G7", "G4:4 C5:2 B4:2")[1] == ("C5", "11", "appoggiatura")
    assert kinds("Dm G", "F4:4 C5:2 B4:2")[1] == ("C5", "4", "appoggiatura")


def test_chord_tones_are_named() -> None:
    found = read_melody(line("A4 C#5 E5 B4"), chart("Aadd9"))
    assert [one.kind for one in found] == ["chord tone"] * 4
    assert [one.reason for one in found] == [
        "A is the root of Aadd9.", "C♯ is the third of Aadd9.", "E is the fifth of Aadd9.", "B is the ninth of Aadd9.",
    ]  # fmt: skip


def test_the_third_over_a_power_chord_fills_what_the_chord_leaves_open() -> None:
    third, _, fourth, _ = read_melody(line("B4 D5 C5 B4"), chart("G5"))
    assert (third.kind, third.reason) == ("chord tone", "B is the third that G5 leaves open.")
    assert third.degree is not None
    assert third.degree.label == "3"
    assert fourth.kind == "passing"


def test_a_suspension_says_where_it_comes_from() -> None:
    held = read_melody(line("C5:5 B4:3"), chart("C G"))[1]
    assert held.reason == "C is held over from the C chord and steps down to B, 4–3."


def test_a_held_note_is_read_over_each_chord() -> None:
    found = read_melody(line("A4:12"), chart("A F#m D"))
    assert [(one.degree.label, one.span.start, one.span.end) for one in found if one.degree] == [
        ("1", 0, 4), ("♭3", 4, 8), ("5", 8, 12),
    ]  # fmt: skip
    assert reading_at(found, F(7)) == found[1]
    assert reading_at(found, F(12)) is None


def test_a_chord_struck_again_is_no_change_of_chord() -> None:
    assert len(read_melody(line("A4:8"), chart("A A"))) == 1


def test_no_chord_and_no_chart() -> None:
    (silent,) = read_melody(line("A4"), chart("N.C."))
    assert (silent.kind, silent.degree, silent.chord_at) == ("no chord", None, None)
    assert read_melody(line("A4"), Chart(()))[0].kind == "no chord"
    assert read_melody((), chart("A")) == ()


def test_each_voice_keeps_its_own_line() -> None:
    """Two voices: the upper is held, 4–3; the lower walks. Each is read against its own nearest notes."""
    upper, lower = line("D5:5 C#5:3"), line("F#4:4 E4:4")
    found = read_melody((*upper, *lower), chart("D A"))
    kinds_of = {(str(one.note.pitch), one.span.start): one.kind for one in found}
    assert kinds_of["D5", F(4)] == "suspension 4–3"
    assert kinds_of["E4", F(4)] == "chord tone"


@given(st.lists(st.sampled_from(["C5", "D5", "E5", "F5", "G5", "A5", "B4"]), min_size=1, max_size=12))
def test_octaves_and_transposition_change_no_reading(names: list[str]) -> None:
    notes = line(" ".join(names))
    song = chart("C Am F G")
    octave = [Note(n.onset, n.length, n.pitch.transposed(-7, -12)) for n in notes]
    fourth = [Note(n.onset, n.length, n.pitch.transposed(3, 5)) for n in notes]
    ours = [(one.degree, one.kind) for one in read_melody(notes, song)]
    assert [(one.degree, one.kind) for one in read_melody(octave, song)] == ours
    assert [(one.degree, one.kind) for one in read_melody(fourth, chart("F Dm Bb C"))] == ours


def test_a_thousand_notes_are_read_whole() -> None:
    song = chart("| A C#7 | F#m7 . D . | Dm6 A/E | E7sus4 E7 " * 25)
    scale = [Pitch.parse(name) for name in ("A4", "B4", "C#5", "D5", "E5", "F#5", "G#5")]
    notes = [Note(F(place, 4), F(1, 4), scale[place * 3 % 7]) for place in range(1000)]
    keys = ((F(0), Key.parse("A")),)
    assert len(read_melody(notes, song, keys=keys, time=COMMON_TIME)) == 1000

"""Half-step approaches to chord tones."""

from fractions import Fraction as F

from studio.music.place import Span
from studio.theory.melody.approaches import half_step_approaches
from studio.theory.melody.degrees import read_melody
from tests.theory.charts import chart, line


def listed(bars: str, notes: str, span: Span | None = None) -> list[str]:
    found = half_step_approaches(read_melody(line(notes), chart(bars)), span)
    return [f"{one.start.name}–{one.target.pitch.name} {one.degree.label}" for one in found]


def test_each_half_step_into_a_chord_tone_is_listed() -> None:
    assert listed("A E", "G#4 A4 C5 C#5 D5 D#5 E5 F5") == ["G♯–A 1", "C–C♯ 3", "D♯–E 1"]


def test_whole_steps_leaps_and_non_chord_tones_are_not() -> None:
    assert listed("A", "B4 A4 E5 F5") == []


def test_the_chord_is_that_under_the_note_that_is_reached() -> None:
    assert listed("E7 A", "G#4:4 A4:4") == ["G♯–A 1"]
    assert listed("E7 F", "E4:4 F4:4") == ["E–F 1"]


def test_only_those_of_a_span() -> None:
    assert listed("A E", "G#4:3 A4 D#5 E5:3", Span(F(4), F(8))) == ["D♯–E 1"]


def test_a_reason_is_given() -> None:
    (found,) = half_step_approaches(read_melody(line("C#5 C5"), chart("F7")))
    assert found.reason == "C♯ leads down a half step to C, the 5 of F7."
    assert not found.from_below

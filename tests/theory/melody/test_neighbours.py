"""Which note follows which in a part of several voices."""

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.melody.neighbours import Neighbours
from tests.theory.charts import line


def test_one_voice() -> None:
    notes = line("C4 D4 r:1/2 E4 r:1 F4")
    found = Neighbours(notes)
    assert [found.after(note) for note in notes] == [notes[1], notes[2], None, None]
    assert [found.before(note) for note in notes] == [None, notes[0], notes[1], None]


def test_each_voice_goes_on_to_the_nearest_pitch() -> None:
    upper, lower = line("C5 B4 C5"), line("E4 F4 E4")
    found = Neighbours([*upper, *lower])
    assert [found.after(note) for note in (*upper[:2], *lower[:2])] == [*upper[1:], *lower[1:]]
    assert [found.before(note) for note in (*upper[1:], *lower[1:])] == [*upper[:2], *lower[:2]]


def test_a_played_note_may_hang_over() -> None:
    one = Note(F(0), F(17, 16), Pitch.parse("C4"))
    two = Note(F(1), F(1), Pitch.parse("D4"))
    found = Neighbours([two, one])
    assert (found.after(one), found.before(two)) == (two, one)


@given(st.lists(st.integers(48, 72), min_size=2, max_size=8))
def test_in_one_voice_before_is_the_reverse_of_after(numbers: list[int]) -> None:
    notes = [Note(F(place), F(1), Pitch.from_midi(number)) for place, number in enumerate(numbers)]
    found = Neighbours(notes)
    assert [found.after(note) for note in notes[:-1]] == notes[1:]
    assert [found.before(note) for note in notes[1:]] == notes[:-1]

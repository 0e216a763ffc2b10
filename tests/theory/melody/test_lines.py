"""Following lines through parts of several voices."""

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.lines import Lines
from tests.theory.charts import chart, line


def hands(right: str, left: str) -> list[Note]:
    """Two written lines as the two staves of a piano part."""
    return [*line(right), *(Note(one.onset, one.length, one.pitch, 2) for one in line(left))]


def followed(notes: list[Note], start: str, at: F = F(0)) -> list[str]:
    """The line that begins with a pitch at a moment."""
    lines = Lines(notes)
    place = next(n for n, one in enumerate(lines.notes) if str(one.pitch) == start and one.onset == at)
    found = [start]
    while (following := lines.after[place]) is not None:
        place = following
        found.append(str(lines.notes[place].pitch))
    return found


def test_one_voice_is_one_line_whatever_it_leaps() -> None:
    assert followed(list(line("C4 C6 C3 G5")), "C4") == ["C4", "C6", "C3", "G5"]


def test_each_hand_keeps_its_own_line() -> None:
    """The left hand comes nearer to the right hand's note than the right hand itself does."""
    notes = hands("E5:2 G4:2", "C3:2 F4:2")
    assert followed(notes, "E5") == ["E5", "G4"]
    assert followed(notes, "C3") == ["C3", "F4"]


def test_the_right_hand_rests_and_the_left_goes_on() -> None:
    notes = hands("B4 r:3 C5:4", "G3 A3 B3 C4 D4:4")
    found = read_melody(notes, chart("G C"))
    first, later = (one for one in found if one.note.staff == 1)
    assert (first.departure.kind, later.approach.kind) == ("none", "none")


def test_voices_of_one_hand_do_not_swap() -> None:
    soprano, alto = "E5 F5 G5:2", "C5:2 B4:2"
    notes = [*line(soprano), *line(alto)]
    assert followed(notes, "E5") == ["E5", "F5", "G5"]
    assert followed(notes, "C5") == ["C5", "B4"]


def test_the_melody_on_top_of_chords_is_a_line() -> None:
    """C–E–G, then F alone: F follows the highest note, G, although E is nearer."""
    notes = [*line("G5 F5 G5"), *line("E5 r E5"), *line("C5 r C5")]
    lines = Lines(notes)
    alone = next(n for n, one in enumerate(lines.notes) if str(one.pitch) == "F5")
    before = lines.before[alone]
    assert before is not None
    assert str(lines.notes[before].pitch) == "G5"


def test_notes_played_over_their_end_still_follow() -> None:
    late = [Note(F(0), F(9, 8), line("E5")[0].pitch), *(Note(F(1), F(1), one.pitch) for one in line("F5"))]
    assert followed(late, "E5") == ["E5", "F5"]


def test_short_notes_with_gaps_hang_together_and_breaths_do_not() -> None:
    staccato = " r:3/4 ".join(f"{name}:1/4" for name in ("C5", "D5", "E5", "F5", "G5"))
    assert followed(list(line(staccato)), "C5") == ["C5", "D5", "E5", "F5", "G5"]
    assert followed(list(line("C5 D5 E5 r:2 F5")), "C5") == ["C5", "D5", "E5"]


def test_the_lowest_of_several() -> None:
    lines = Lines([*line("E5:4"), *line("C3:2 D3:2")])
    assert {str(lines.notes[place].pitch) for place in lines.lowest_of_several()} == {"C3", "D3"}
    assert Lines(line("C3 D3")).lowest_of_several() == set()


@given(st.lists(st.integers(48, 72), min_size=2, max_size=8))
def test_in_one_voice_before_is_the_reverse_of_after(numbers: list[int]) -> None:
    notes = [Note(F(place), F(1), Pitch.from_midi(number)) for place, number in enumerate(numbers)]
    lines = Lines(notes)
    places = range(len(notes))
    assert [lines.neighbour(place, 1) for place in places] == [*notes[1:], None]
    assert [lines.neighbour(place, -1) for place in places] == [None, *notes[:-1]]

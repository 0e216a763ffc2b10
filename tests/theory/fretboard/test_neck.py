"""Where notes lie on a neck."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from studio.music.pitch import NoteName, Pitch
from studio.theory.fretboard.named_tunings import STANDARD, TUNINGS
from studio.theory.fretboard.neck import places_of_notes, places_of_pitch


def test_a_pitch_lies_where_guitarists_tune_by_it() -> None:
    """The fifth-fret method of tuning, the fourth between G and B. Common practice."""
    for string, (above, fret) in enumerate([("A2", 5), ("D3", 5), ("G3", 5), ("B3", 4), ("E4", 5)]):
        found = {(place.string, place.fret) for place in places_of_pitch(Pitch.parse(above), STANDARD)}
        assert {(string, fret), (string + 1, 0)} <= found


def test_a_pitch_off_the_neck_lies_nowhere() -> None:
    assert places_of_pitch(Pitch.parse("D2"), STANDARD) == ()
    assert places_of_pitch(Pitch.parse("D6"), STANDARD, 0, 12) == ()


def test_a_capo_counts_frets_from_itself() -> None:
    with_capo = STANDARD.with_capo(3)
    assert [(place.string, place.fret) for place in places_of_pitch(Pitch.parse("G2"), with_capo)] == [(0, 0)]


def test_the_first_position_of_c_major() -> None:
    """E F G · A B C · D E F · G A · B C D · E F G: the first scale in any method. Common practice."""
    notes = [NoteName(letter) for letter in "CDEFGAB"]
    found = places_of_notes(notes, STANDARD, 0, 3)
    by_string = [
        "".join(str(place.pitch.name) for place in found if place.string == string) for string in range(6)
    ]
    assert by_string == ["EFG", "ABC", "DEF", "GA", "BCD", "EFG"]


def test_places_are_spelled_as_asked() -> None:
    assert {str(place.pitch.name) for place in places_of_notes([NoteName("G", -1)], STANDARD)} == {"G♭"}


@given(st.sampled_from(sorted(TUNINGS)), st.integers(0, 11), st.integers(0, 9), st.integers(0, 12))
def test_twelve_frets_hold_every_note_once_on_each_string(name: str, pc: int, capo: int, first: int) -> None:
    tuning = TUNINGS[name].with_capo(capo)
    note = Pitch.from_midi(pc + 60).name
    found = places_of_notes([note], tuning, first, first + 11)
    strings = [place.string for place in found if place.string not in tuning.open_only]
    assert strings == [string for string in range(len(tuning.strings)) if string not in tuning.open_only]
    for place in found:
        assert place.pitch.midi == tuning.midi[place.string] + place.fret and place.pitch.name == note

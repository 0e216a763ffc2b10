"""Moments of a part: what sounds together, what is struck together, what belongs to a bar."""

from fractions import Fraction as F
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.parts.slices import InOrder, belonging_to, held_at, slices, sounding_in, strikes
from tests.theory.parts.played import BAR, played

C, E, G = (Pitch.parse(name) for name in ("C4", "E4", "G4"))


def test_a_slice_ends_wherever_a_note_starts_or_stops() -> None:
    notes = [Note(F(0), F(4), C), Note(F(1), F(2), E), Note(F(2), F(2), G)]
    found = [(one.span.start, "".join(str(n.pitch.name) for n in one.notes)) for one in slices(notes, BAR)]
    assert found == [(0, "C"), (1, "CE"), (2, "CEG"), (3, "CG")]


def test_silence_is_a_slice_too() -> None:
    (before, sound, after) = slices([Note(F(1), F(1), C)], BAR)
    assert (before.notes, after.notes) == ((), ())
    assert sound.pcs == {0}
    assert [one.span for one in slices((), BAR)] == [BAR]


def test_what_is_held_at_a_moment() -> None:
    notes = [Note(F(0), F(4), C), Note(F(1), F(2), E), Note(F(3), F(1), G)]
    found, span = held_at(notes, F(2))
    assert (found, span) == (tuple(notes[:2]), Span(F(1), F(3)))
    assert held_at(notes, F(9)) == ((), Span(F(9), F(9)))


notes = st.lists(
    st.builds(
        Note,
        st.fractions(0, 6, max_denominator=4),
        st.fractions(F(1, 4), 3, max_denominator=4),
        st.integers(48, 72).map(Pitch.from_midi),
    ),
    max_size=10,
)


@given(notes)
def test_slices_tile_the_span_and_hold_what_sounds(notes: list[Note]) -> None:
    span = Span(F(1), F(5))
    found = slices(notes, span)
    assert (found[0].span.start, found[-1].span.end) == (span.start, span.end)
    for one, two in pairwise(found):
        assert one.span.end == two.span.start
    for one in found:
        middle = (one.span.start + one.span.end) / 2
        assert sorted(map(id, one.notes)) == sorted(
            id(note) for note in notes if note.onset <= middle < note.end
        )


@given(notes)
def test_what_is_found_near_a_span_is_all_that_sounds_in_it(notes: list[Note]) -> None:
    span = Span(F(2), F(3))
    near = InOrder(notes).near(span)
    assert sorted(map(id, sounding_in(near, span))) == sorted(map(id, sounding_in(notes, span)))


def test_a_rolled_chord_is_struck_together() -> None:
    rolled = [Note(F(place, 32), F(1), pitch) for place, pitch in enumerate((C, E, G))]
    assert strikes(rolled) == (tuple(rolled),)
    assert [len(strike) for strike in strikes(played("C4+E4 G4 C4+E4+G4"))] == [2, 1, 3]


def test_tails_and_pushes_do_not_belong() -> None:
    tail = Note(F(-2), F(2) + F(1, 16), C)
    held = Note(F(-2), F(3), E)
    pushed = Note(F(7, 2), F(2), G)
    short = Note(F(7, 2), F(1, 2), G)
    assert belonging_to([tail, held, pushed, short], BAR) == (held, short)
    assert belonging_to([pushed], Span(F(4), F(8))) == (pushed,)

"""Voice leading from chord symbols, against published results and independent solvers."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName
from studio.theory.parts.voice_leading import first_to_last, leadings, smallest_motion
from tests.theory.charts import chart

SHARPS_AND_FLATS = [NoteName.from_fifths(place) for place in range(-5, 7)]
names = st.sampled_from(SHARPS_AND_FLATS)
chords = st.builds(
    Chord.of, names, st.sampled_from(("", "m", "7", "maj7", "m7", "dim7", "m7♭5", "9", "13", "sus4", "5"))
)


def size(one: str, two: str) -> int:
    (found,) = leadings(chart(f"{one} {two}").chords)
    return found.total


@pytest.mark.parametrize("root", SHARPS_AND_FLATS, ids=str)
@pytest.mark.parametrize(("operation", "half_steps"), [("P", 1), ("L", 1), ("R", 2)])
def test_neo_riemannian_operations_move_one_voice(root: NoteName, operation: str, half_steps: int) -> None:
    """P and L move one voice by a half step, R by a whole step (Cohn, "Neo-Riemannian Operations, Parsimonious
    Trichords, and Their Tonnetz Representations", Journal of Music Theory 41, 1997, from memory); which chord each
    one makes is music21.analysis.neoRiemannian's answer.
    """
    from music21 import analysis
    from music21 import chord as m21_chord

    for quality in ("", "m"):
        one = Chord.of(root, quality)
        start = m21_chord.Chord([note.pc for note in one.notes()])
        reached = getattr(analysis.neoRiemannian, operation)(start)
        moves = smallest_motion(
            one.notes(), [SHARPS_AND_FLATS[(7 * pc + 5) % 12] for pc in reached.pitchClasses]
        )
        assert sorted(abs(move.semitones) for move in moves) == [0, 0, half_steps]


@pytest.mark.parametrize(
    ("one", "two", "half_steps"),
    [
        # Tymoczko, "The Geometry of Musical Chords", Science 313 (2006): C to F moves (C, E, G) to (C, F, A)
        ("C", "F", 3),
        # hexatonic poles: all three voices by a half step (Cohn, "Maximally Smooth Cycles", 1996, from memory)
        ("C", "Abm", 3),
        ("E", "Cm", 3),
        # major thirds apart: one note held, two half steps (same)
        ("C", "Ab", 2),
        ("C", "E", 2),
        # dominant and half-diminished sevenths are one half step from a diminished seventh (Childs, "Moving Beyond
        # Neo-Riemannian Triads", 1998, from memory)
        ("C7", "C#dim7", 1),
        ("Bm7b5", "Bdim7", 1),
        # an augmented triad is one half step from six triads (Cohn, "Weitzmann's Regions", 2000, from memory)
        ("Caug", "Am", 1),
        ("Caug", "Fm", 1),
        ("Caug", "C#m", 1),
        ("Caug", "C", 1),
        ("Caug", "E", 1),
        ("Caug", "Ab", 1),
    ],
)  # fmt: skip
def test_published_sizes(one: str, two: str, half_steps: int) -> None:
    assert size(one, two) == half_steps
    assert size(two, one) == half_steps


def test_the_worked_example_of_the_geometry_of_musical_chords() -> None:
    """Tymoczko's supporting text, figure S12: Cmaj7 to Emaj7 by (4, 4, 7, 11, 0) → (3, 4, 8, 11, 11), 3 half steps.

    He doubles E and B to get there. Given his five voices we find his 3; with four voices, as players count, it is 4.
    """
    notes = {note.pc: note for note in (NoteName.parse(text) for text in ("E", "G", "B", "C", "D#", "G#"))}
    doubled = smallest_motion([notes[pc] for pc in (4, 4, 7, 11, 0)], [notes[pc] for pc in (3, 4, 8, 11, 11)])
    assert sum(abs(move.semitones) for move in doubled) == 3
    assert size("Cmaj7", "Emaj7") == 4


@given(chords, chords)
def test_the_pairing_is_the_smallest(one: Chord, two: Chord) -> None:
    """The Hungarian method of scipy, over every way of doubling the smaller chord, finds nothing smaller."""
    more, fewer = sorted((one.notes(), two.notes()), key=len, reverse=True)
    extra = len(more) - len(fewer)
    least = min(_hungarian(more, (*fewer, *doubled)) for doubled in _doublings(fewer, extra))
    assert sum(abs(move.semitones) for move in smallest_motion(one.notes(), two.notes())) == least


def _hungarian(one: tuple[NoteName, ...], two: tuple[NoteName, ...]) -> int:
    table = [[min((a.pc - b.pc) % 12, (b.pc - a.pc) % 12) for b in two] for a in one]
    rows, columns = linear_sum_assignment(table)
    return sum(table[row][column] for row, column in zip(rows, columns, strict=True))


def _doublings(notes: tuple[NoteName, ...], extra: int) -> list[tuple[NoteName, ...]]:
    if extra == 0:
        return [()]
    return [
        (note, *rest) for place, note in enumerate(notes) for rest in _doublings(notes[place:], extra - 1)
    ]


@given(chords, chords)
def test_every_note_takes_part_and_the_way_back_is_as_long(one: Chord, two: Chord) -> None:
    moves = smallest_motion(one.notes(), two.notes())
    back = smallest_motion(two.notes(), one.notes())
    assert {move.start for move in moves} == set(one.notes())
    assert {move.end for move in moves} == set(two.notes())
    assert len(moves) == max(len(one.notes()), len(two.notes()))
    assert sum(abs(move.semitones) for move in moves) == sum(abs(move.semitones) for move in back)
    assert all((move.start.pc + move.semitones) % 12 == move.end.pc for move in moves)


@given(chords, chords, st.integers(0, 6))
def test_transposition_moves_the_notes_and_nothing_else(one: Chord, two: Chord, letters: int) -> None:
    semitones = (0, 2, 4, 5, 7, 9, 11)[letters]
    here = smallest_motion(one.notes(), two.notes())
    there = smallest_motion(
        one.transposed(letters, semitones).notes(), two.transposed(letters, semitones).notes()
    )
    assert [(m.start.transposed(letters, semitones), m.semitones) for m in here] == [
        (m.start, m.semitones) for m in there
    ]


@given(st.permutations(range(4)))
def test_the_order_of_the_notes_does_not_change_the_size(order: list[int]) -> None:
    one, two = read_chord("Dm7").notes(), read_chord("G7").notes()
    shuffled = smallest_motion([one[place] for place in order], two)
    assert sum(abs(move.semitones) for move in shuffled) == 3
    assert (
        min(
            sum(min((a.pc - b.pc) % 12, (b.pc - a.pc) % 12) for a, b in zip(one, way, strict=True))
            for way in permutations(two)
        )
        == 3
    )


def test_what_a_leading_tells() -> None:
    (found,) = leadings(chart("A F#m").chords)
    assert [str(note) for note in found.held] == ["A", "C♯"]
    assert (found.total, found.half_steps) == (2, ())
    assert (str(found.bass.start), str(found.bass.end), found.bass.semitones) == ("A", "F♯", -3)
    (found,) = leadings(chart("G7 C").chords)
    assert {(str(move.start), str(move.end)) for move in found.half_steps} == {("B", "C"), ("F", "E")}


def test_neighbours() -> None:
    assert [(str(found.one), str(found.two)) for found in leadings(chart("A A E N.C. D D").chords)] == [
        ("A", "E"), ("E", "D"),
    ]  # fmt: skip
    whole = first_to_last(chart("A E D").chords)
    assert whole is not None and (str(whole.one), str(whole.two)) == ("A", "D")
    assert leadings(()) == () and first_to_last(chart("A").chords) is None
    assert smallest_motion((), (NoteName("C"),)) == ()

"""Reading modes. Lines are our own; which notes tell modes apart is in any textbook (from memory)."""

from dataclasses import replace
from fractions import Fraction as F
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.theory.melody.modes import ModeReading, read_mode
from studio.theory.melody.scales import SCALES, Scale, scale_named
from tests.theory.charts import line

TONICS = ("C", "D♭", "D", "E♭", "E", "F", "F♯", "G", "A♭", "A", "B♭", "B")


def read(text: str, tonic: str) -> ModeReading:
    return read_mode(line(text), NoteName.parse(tonic))


def names(reading: ModeReading) -> list[str]:
    return [candidate.scale.name for candidate in reading.candidates]


def scale_line(scale: Scale, tonic: NoteName) -> tuple[Note, ...]:
    notes = scale.notes(tonic)
    pitches = [Pitch(note, 4) for note in notes]
    return tuple(Note(F(place), F(1), pitch) for place, pitch in enumerate(pitches))


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("scale", SCALES, ids=str)
def test_every_scale_from_every_tonic_is_recognised(scale: Scale, tonic: str) -> None:
    """All 12 keys × every scale, exact: the whole scale sounds, so it is the one answer."""
    reading = read_mode(scale_line(scale, NoteName.parse(tonic)), NoteName.parse(tonic))
    assert reading.scale == scale
    (candidate,) = reading.candidates
    assert candidate.notes == scale.notes(NoteName.parse(tonic))
    assert (candidate.missing, candidate.foreign) == ((), ())
    assert reading.sureness >= 0.9


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize(
    ("scale", "rival", "degree"),
    [
        # Neighbouring modes differ in one note: the 6th, 2nd, 7th, 4th, 3rd and 5th (any textbook, from memory).
        ("Aeolian", "Dorian", 6), ("Aeolian", "Phrygian", 2), ("Ionian", "Mixolydian", 7),
        ("Ionian", "Lydian", 4), ("Mixolydian", "Dorian", 3),
        ("harmonic minor", "melodic minor", 6),
    ],
)  # fmt: skip
def test_without_the_deciding_note_both_are_left(scale: str, rival: str, degree: int, tonic: str) -> None:
    root = NoteName.parse(tonic)
    notes = scale_line(scale_named(scale), root)
    reading = read_mode([note for place, note in enumerate(notes, 1) if place != degree], root)
    assert set(names(reading)) == {scale, rival}
    own, other = (scale_named(name).notes(root)[degree - 1] for name in (scale, rival))
    told = {deciding.note: [left.name for left in deciding.leaves] for deciding in reading.would_decide}
    assert told == {own: [scale], other: [rival]}
    assert all(candidate.sureness < 0.6 for candidate in reading.candidates)


@pytest.mark.parametrize(
    ("notes", "tonic", "answer", "decided_by"),
    [
        ("A4 B4 C5 D5 E5 F5 G5", "A", "Aeolian", "B F"),
        ("A4 B4 C5 D5 E5 F#5 G5", "A", "Dorian", "C F♯"),
        ("E4 F4 G4 B4 D5", "E", "Phrygian", "F"),
        ("C4 E4 F4 G4 Bb4", "C", "Mixolydian", "E B♭"),
        ("C4 D4 E4 F#4 B4", "C", "Lydian", "F♯"),
        ("C4 D4 E4 F#4 G4 A4 Bb4", "C", "Lydian dominant", "F♯ B♭"),
        ("A4 B4 C5 E5 F5 G#5", "A", "harmonic minor", "F G♯"),
        ("E4 F4 G#4 B4 C5 D5", "E", "Phrygian dominant", "F G♯"),
        ("B4 C5 D5 F5 A5", "B", "Locrian", "F"),
    ],
)
def test_notes_that_decide(notes: str, tonic: str, answer: str, decided_by: str) -> None:
    reading = read(notes, tonic)
    assert names(reading) == [answer]
    assert " ".join(str(note) for note in reading.decided_by) == decided_by


def test_an_honest_set_is_no_wider_than_the_music_leaves_it() -> None:
    assert names(read("A4 C5 E5", "A")) == ["Aeolian", "Dorian", "Phrygian"]
    assert names(read("C4 E4 G4", "C")) == ["Ionian", "Mixolydian", "Lydian"]
    assert names(read("C4 E4 G4 B4", "C")) == ["Ionian", "Lydian"]
    open_third = read("A4 B4 D5 E5", "A")
    assert names(open_third) == ["Ionian", "Aeolian", "Mixolydian", "Dorian"]
    assert {str(one.note) for one in open_third.would_decide} == {"C", "C♯", "F", "F♯", "G", "G♯"}


def test_a_key_gives_the_third_that_the_line_leaves_out() -> None:
    minor = read_mode(line("A4 B4 D5 E5"), Key.parse("Am"))
    assert names(minor) == ["Aeolian", "Dorian"]
    assert minor.reason == "No sixth sounds, which leaves it open; the third is that of A minor."
    assert names(read_mode(line("A4 B4 D5 E5"), Key.parse("A"))) == ["Ionian", "Mixolydian"]
    assert names(read_mode(line("A4 B4 C#5 D5 E5 F#5 G5"), Key.parse("Am"))) == ["Mixolydian"], (
        "what sounds counts"
    )


def test_pentatonic_only_if_its_notes_sound_and_no_other() -> None:
    five = read("A4 C5 D5 E5 G5 A5", "A")
    assert names(five) == ["minor pentatonic"]
    assert five.runner_up == "Aeolian"
    assert [scale.name for scale in five.others][:3] == ["Aeolian", "Dorian", "Phrygian"]
    assert names(read("A4 C5 D5 E5 G5 F5", "A")) == ["Aeolian", "Phrygian"]
    assert "minor pentatonic" not in names(read("A4 C5 D5 E5", "A"))


def test_the_blue_note_makes_it_blues() -> None:
    assert names(read("A4 C5 D5 Eb5 E5 G5", "A")) == ["minor blues"]
    assert names(read("A4 C5 D5 D#5 E5 G5", "A")) == ["minor blues"], "however it is spelled"
    assert names(read("C5 D5 Eb5 E5 G5 A5", "C")) == ["major blues"]


def test_short_chromatic_notes_are_passed_over() -> None:
    passing = read("C5:2 D5 D#5:1/2 E5:1/2 F5 G5 A5 B5 C5", "C")
    assert names(passing) == ["Ionian"]
    assert [str(note) for note in passing.candidates[0].foreign] == ["D♯"]
    assert passing.reason == "F and B make it C Ionian; D♯ only passes."
    held = read("C5:2 D5 D#5:3 E5:3 F5 G5 A5 B5 C5", "C")
    assert held.sureness < 0.5, "a long note does not pass"
    leaping = read("C5:2 D5 D#5:1/2 G5:1/2 E5 F5 G5 A5 B5 C5", "C")
    assert leaping.sureness < passing.sureness, "a note that goes on by leap does not pass"


def test_minor_keys_have_both_sevenths() -> None:
    both = read("A4 B4 C5 D5 E5 F5 G5 A5 G#4 A4", "A")
    assert names(both) == ["Aeolian"]
    assert both.reason == "B and F make it A Aeolian; G♯ is the raised seventh of minor."


def test_a_line_that_no_scale_holds_says_so() -> None:
    reading = read("C4:2 D4:2 E4:2 F4:2 F#4:2 G4:2 G#4:2 A4:2 B4:2", "C")
    assert reading.sureness < 0.4
    assert reading.reason.startswith("No scale holds every note: C ")


def test_notes_that_sound_both_ways_leave_it_open() -> None:
    reading = read("C4 D4 E4 F4 F#4 G4 A4 B4", "C")
    assert names(reading) == ["Ionian", "Lydian"]
    assert reading.reason == "F and F♯ both sound, which leaves it open."


def test_only_what_sounds_in_the_span_counts() -> None:
    notes = line("A4 B4 C5 D5 E5 G5 F#5:2")
    assert names(read_mode(notes, NoteName("A"), Span(F(0), F(6)))) == ["Aeolian", "Dorian"]
    whole = read_mode(notes, NoteName("A"), Span(F(0), F(7)))
    assert names(whole) == ["Dorian"], "a note that starts in the span counts"
    assert whole.span == Span(F(0), F(7))
    assert read_mode(notes, NoteName("A")).span == Span(F(0), F(8))


@pytest.mark.parametrize("notes", ["", "r:4"])
def test_nothing_sounds(notes: str) -> None:
    reading = read_mode(line(notes), NoteName("A"))
    assert (reading.candidates, reading.sureness, reading.reason) == ((), 0.0, "Nothing sounds here.")
    assert read_mode(line("A4"), NoteName("A"), Span(F(8), F(12))).candidates == ()


def test_one_or_two_notes_tell_nothing() -> None:
    reading = read("A4 E5", "A")
    assert reading.reason == "Only A and E sound, too little to tell a mode."
    assert reading.sureness < 0.5
    assert len(reading.candidates) > 3


steps = st.lists(st.tuples(st.integers(0, 11), st.integers(1, 8)), min_size=1, max_size=16)
moves = st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (-1, -1), (-2, -4)])


def chromatic(steps: list[tuple[int, int]]) -> list[Note]:
    notes, at = [], F(0)
    for number, length in steps:
        notes.append(Note(at, F(length, 2), Pitch.from_midi(60 + number)))
        at += F(length, 2)
    return notes


@given(steps, moves)
def test_transposing_the_music_transposes_the_mode(
    steps: list[tuple[int, int]], move: tuple[int, int]
) -> None:
    notes = chromatic(steps)
    here = read_mode(notes, NoteName("C"))
    there = read_mode(
        [replace(n, pitch=n.pitch.transposed(*move)) for n in notes], NoteName("C").transposed(*move)
    )
    assert names(there) == names(here)
    assert (there.sureness, there.runner_up, there.others) == (here.sureness, here.runner_up, here.others)
    assert there.decided_by == tuple(note.transposed(*move) for note in here.decided_by)
    for one, two in zip(here.candidates, there.candidates, strict=True):
        assert two.missing == tuple(note.transposed(*move) for note in one.missing)
        assert two.foreign == tuple(note.transposed(*move) for note in one.foreign)


@given(steps, st.integers(-2, 2), st.randoms(use_true_random=False))
def test_octaves_and_the_order_of_the_list_change_nothing(
    steps: list[tuple[int, int]], octaves: int, random: Random
) -> None:
    notes = chromatic(steps)
    moved = [replace(n, pitch=n.pitch.transposed(7 * octaves, 12 * octaves)) for n in notes]
    random.shuffle(moved)
    assert read_mode(moved, NoteName("C")) == read_mode(notes, NoteName("C"))


@given(st.sampled_from(SCALES), st.permutations(range(9)), st.integers(1, 4))
def test_the_order_of_the_notes_and_repeating_them_change_no_scale(
    scale: Scale, order: list[int], times: int
) -> None:
    pitches = [note.pitch for note in scale_line(scale, NoteName("D"))]
    pitches = [pitches[place] for place in order if place < len(pitches)] * times
    notes = [Note(F(place), F(1), pitch) for place, pitch in enumerate(pitches)]
    assert read_mode(notes, NoteName("D")).scale == scale


@given(steps)
def test_the_candidates_share_the_sureness(steps: list[tuple[int, int]]) -> None:
    reading = read_mode(chromatic(steps), NoteName("C"))
    shared = sum(candidate.sureness for candidate in reading.candidates)
    assert abs(shared - reading.sureness) <= 0.005 * (len(reading.candidates) + 1)
    assert 0 < reading.sureness <= 0.98


def test_a_thousand_notes_are_read_whole() -> None:
    random = Random(3)
    notes = [
        Note(F(n, 2), F(1, 2), Pitch.from_midi(60 + random.choice((0, 2, 4, 5, 7, 9, 11))))
        for n in range(1000)
    ]
    assert read_mode(notes, NoteName("C")).scale == scale_named("Ionian")

"""Spelled notes and pitches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.key import Key
from studio.music.pitch import NoteName, Pitch

names = st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-2, 2))
pitches = st.builds(Pitch, names, st.integers(0, 8))
intervals = st.tuples(st.integers(-14, 14), st.integers(-24, 24))


@pytest.mark.parametrize(
    ("text", "midi", "hertz"),
    [
        # ISO 16 fixes A4 at 440 Hz; the others are the usual table of equal temperament, f = 440·2^((n−69)/12),
        # to the cent of a hertz, and MIDI 1.0's numbering with middle C as 60.
        ("A4", 69, 440.00),
        ("C4", 60, 261.63),
        ("A0", 21, 27.50),
        ("C8", 108, 4186.01),
        ("E2", 40, 82.41),
        ("Bb3", 58, 233.08),
        ("F#5", 78, 739.99),
    ],
)
def test_equal_temperament_table(text: str, midi: int, hertz: float) -> None:
    pitch = Pitch.parse(text)
    assert pitch.midi == midi
    assert pitch.frequency() == pytest.approx(hertz, abs=0.005)


def test_frequencies_and_numbers_agree_with_music21() -> None:
    from music21 import pitch as reference

    for number in range(21, 109):  # the piano
        ours = Pitch.from_midi(number)
        theirs = reference.Pitch(str(ours).replace("♭", "-").replace("♯", "#"))
        assert theirs.midi == ours.midi == number
        assert theirs.frequency == pytest.approx(ours.frequency(), rel=1e-9)


def test_another_tuning_moves_everything() -> None:
    assert Pitch.parse("A3").frequency(a4=442) == pytest.approx(221)


@given(names)
def test_names_print_and_read(name: NoteName) -> None:
    assert NoteName.parse(str(name)) == name
    assert NoteName.parse(str(name).replace("♭", "b").replace("♯", "#")) == name


@given(pitches)
def test_pitches_print_and_read(pitch: Pitch) -> None:
    assert Pitch.parse(str(pitch)) == pitch


@given(st.integers(0, 127), st.integers(-7, 7), st.sampled_from(["major", "minor"]))
def test_midi_numbers_round_trip_in_every_key(number: int, signature: int, mode: str) -> None:
    tonic = NoteName.from_fifths(signature if mode == "major" else signature + 3)
    key = Key(tonic, mode)  # type: ignore[arg-type]
    pitch = Pitch.from_midi(number, key)
    assert pitch.midi == number
    in_key = {note.pc: note for note in key.scale()}
    assert in_key.get(pitch.name.pc, pitch.name) == pitch.name


@given(pitches, intervals)
def test_transposing_there_and_back(pitch: Pitch, interval: tuple[int, int]) -> None:
    letters, semitones = interval
    moved = pitch.transposed(letters, semitones)
    assert moved.midi == pitch.midi + semitones
    assert moved.height == pitch.height + letters
    assert moved.transposed(-letters, -semitones) == pitch


@given(names, names)
def test_interval_to_is_undone_by_transposing(one: NoteName, two: NoteName) -> None:
    assert one.transposed(*one.interval_to(two)) == two


def test_intervals_agree_with_music21() -> None:
    from music21 import interval, pitch

    for name, (letters, semitones) in {
        "M3": (2, 4), "d5": (4, 6), "A4": (3, 6), "m7": (6, 10), "d7": (6, 9), "A1": (0, 1), "M9": (8, 14),
    }.items():  # fmt: skip
        for start in ("C", "F#", "B-", "E"):
            theirs = interval.Interval(name).transposePitch(pitch.Pitch(start)).name
            ours = NoteName.parse(start.replace("-", "b")).transposed(letters, semitones)
            assert str(ours) == theirs.replace("-", "♭").replace("#", "♯")


@pytest.mark.parametrize(
    ("key", "number", "spelled"),
    [
        ("C major", 66, "F♯4"), ("C major", 70, "B♭4"), ("C major", 61, "C♯4"), ("C major", 68, "A♭4"),
        ("A minor", 68, "G♯4"), ("A minor", 61, "C♯4"), ("A minor", 70, "B♭4"), ("F# major", 65, "E♯4"),
        ("Gb major", 71, "C♭5"), ("F# minor", 65, "E♯4"), ("Eb major", 66, "G♭4"), ("A major", 60, "C4"),
    ],
)  # fmt: skip
def test_midi_is_spelled_as_the_key_would(key: str, number: int, spelled: str) -> None:
    """Common practice: ♭3 ♭6 ♭7 ♯4 ♯1 in major, the raised 3 6 7 and ♭2 in minor."""
    assert str(Pitch.from_midi(number, Key.parse(key))) == spelled


@pytest.mark.parametrize("text", ["", "H", "c", "C4", "Cq", "♯", "CC"])
def test_what_is_no_note_name_is_refused_in_words(text: str) -> None:
    with pytest.raises(ValueError, match="is not a note name"):
        NoteName.parse(text)


@pytest.mark.parametrize("text", ["", "C", "4", "c4", "C4.5", "C#"])
def test_what_is_no_pitch_is_refused_in_words(text: str) -> None:
    with pytest.raises(ValueError, match="is not a pitch"):
        Pitch.parse(text)

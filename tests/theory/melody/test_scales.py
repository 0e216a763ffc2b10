"""Scales and their names, against music21's scales and the scale dictionary of tonal."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord import Tone
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.melody.scales import (
    BLUE_NOTES,
    BLUES_SCALES,
    HARMONIC_MINOR_MODES,
    MAJOR_MODES,
    MELODIC_MINOR_MODES,
    PENTATONICS,
    SCALES,
    Scale,
    scale_named,
)

TONICS = ("C", "D♭", "D", "E♭", "E", "F", "F♯", "G", "A♭", "A", "B♭", "B")

# tonal, @tonaljs/scale-type 4.9.3 (npm, MIT): its intervals for each scale and a name that it shares with us.
TONAL = {
    "ionian": "1P 2M 3M 4P 5P 6M 7M",
    "major": "1P 2M 3M 4P 5P 6M 7M",
    "dorian": "1P 2M 3m 4P 5P 6M 7m",
    "phrygian": "1P 2m 3m 4P 5P 6m 7m",
    "lydian": "1P 2M 3M 4A 5P 6M 7M",
    "mixolydian": "1P 2M 3M 4P 5P 6M 7m",
    "dominant": "1P 2M 3M 4P 5P 6M 7m",
    "aeolian": "1P 2M 3m 4P 5P 6m 7m",
    "locrian": "1P 2m 3m 4P 5d 6m 7m",
    "melodic minor": "1P 2M 3m 4P 5P 6M 7M",
    "dorian b2": "1P 2m 3m 4P 5P 6M 7m",
    "lydian augmented": "1P 2M 3M 4A 5A 6M 7M",
    "lydian dominant": "1P 2M 3M 4A 5P 6M 7m",
    "lydian b7": "1P 2M 3M 4A 5P 6M 7m",
    "mixolydian b6": "1P 2M 3M 4P 5P 6m 7m",
    "half-diminished": "1P 2M 3m 4P 5d 6m 7m",
    "aeolian b5": "1P 2M 3m 4P 5d 6m 7m",
    "altered": "1P 2m 2A 3M 4A 6m 7m",
    "super locrian": "1P 2m 2A 3M 4A 6m 7m",
    "harmonic minor": "1P 2M 3m 4P 5P 6m 7M",
    "ionian augmented": "1P 2M 3M 4P 5A 6M 7M",
    "ionian #5": "1P 2M 3M 4P 5A 6M 7M",
    "dorian #4": "1P 2M 3m 4A 5P 6M 7m",
    "ukrainian dorian": "1P 2M 3m 4A 5P 6M 7m",
    "romanian minor": "1P 2M 3m 4A 5P 6M 7m",
    "phrygian dominant": "1P 2m 3M 4P 5P 6m 7m",
    "ultra-locrian": "1P 2m 3m 4d 5d 6m 7d",
    "major pentatonic": "1P 2M 3M 5P 6M",
    "minor pentatonic": "1P 3m 4P 5P 7m",
    "minor blues": "1P 3m 4P 5d 5P 7m",
    "blues": "1P 3m 4P 5d 5P 7m",
    "major blues": "1P 2M 3m 3M 5P 6M",
    "composite blues": "1P 2M 3m 3M 4P 5d 5P 6M 7m",
}
# Scales that tonal has under a name that is not ours.
TONAL_OTHERWISE = {"lydian #9": "Lydian ♯2", "locrian natural 6": "Locrian ♮6", "locrian #2": "Locrian ♮2"}
TONAL_OTHERWISE_INTERVALS = {
    "lydian #9": "1P 2A 3M 4A 5P 6M 7M",
    "locrian natural 6": "1P 2m 3m 4P 5d 6M 7m",
    "locrian #2": "1P 2M 3m 4P 5d 6m 7m",
}
_QUALITIES = {"P": "", "M": "", "m": "♭", "A": "♯", "d": "♭"}


def from_tonal(intervals: str) -> tuple[str, ...]:
    """Degrees from intervals: "3m" is ♭3, "4A" is ♯4, "5d" is ♭5 and "7d" is ♭♭7."""
    return tuple(
        ("♭♭7" if name == "7d" else _QUALITIES[name[1]] + name[0]) for name in intervals.split()
    )  # fmt: skip


@pytest.mark.parametrize(("name", "intervals"), TONAL.items())
def test_names_and_degrees_are_those_of_tonal(name: str, intervals: str) -> None:
    """tonal spells the altered scale as players think of it, with ♯2 3 ♯4; ours has one of each letter."""
    ours, theirs = scale_named(name), from_tonal(intervals)
    if ours.name == "altered":
        assert ours.semitones == tuple(Tone.of(degree).semitones for degree in theirs)
    else:
        assert ours.degrees == theirs


@pytest.mark.parametrize(("name", "ours"), TONAL_OTHERWISE.items())
def test_scales_that_tonal_names_otherwise(name: str, ours: str) -> None:
    assert scale_named(ours).degrees == from_tonal(TONAL_OTHERWISE_INTERVALS[name])


def test_every_scale_is_in_tonal() -> None:
    known = {scale_named(name) for name in TONAL} | {scale_named(name) for name in TONAL_OTHERWISE.values()}
    assert known == set(SCALES)
    assert len(SCALES) == 26


def _music21_notes(scale: object, tonic: NoteName) -> list[str]:
    from music21.scale import Direction

    up = Direction.ASCENDING
    found = scale.getPitches(f"{_ascii(tonic)}4", f"{_ascii(tonic)}5", direction=up)[:-1]  # type: ignore[attr-defined]
    return [pitch.name.replace("-", "♭").replace("#", "♯") for pitch in found]


def _ascii(note: NoteName) -> str:
    return str(note).replace("♭", "-").replace("♯", "#")


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("degree", range(7))
def test_major_modes_are_spelled_as_in_music21(tonic: str, degree: int) -> None:
    """music21's mode classes; its Ionian and Aeolian are the major and minor scale."""
    from music21 import scale

    kinds = (
        *(scale.MajorScale, scale.DorianScale, scale.PhrygianScale, scale.LydianScale, scale.MixolydianScale),
        *(scale.MinorScale, scale.LocrianScale),
    )
    note = NoteName.parse(tonic)
    theirs = _music21_notes(kinds[degree](_ascii(note)), note)
    assert [str(name) for name in MAJOR_MODES[degree].notes(note)] == theirs


@pytest.mark.parametrize("tonic", TONICS)
@pytest.mark.parametrize("degree", range(7))
@pytest.mark.parametrize("family", ["melodic minor", "harmonic minor"])
def test_minor_modes_are_spelled_as_in_music21(tonic: str, degree: int, family: str) -> None:
    """The mode on a degree holds the notes of music21's minor scale whose degree that is.

    Which name belongs to which degree is common practice; tonal agrees in the test above.
    """
    from music21 import scale

    modes = MELODIC_MINOR_MODES if family == "melodic minor" else HARMONIC_MINOR_MODES
    kind = scale.MelodicMinorScale if family == "melodic minor" else scale.HarmonicMinorScale
    note = NoteName.parse(tonic)
    parent = _parent(note, modes[0], degree)
    theirs = _music21_notes(kind(_ascii(parent)), parent)
    assert [str(name) for name in modes[degree].notes(note)] == theirs[degree:] + theirs[:degree]


def _parent(note: NoteName, first: Scale, degree: int) -> NoteName:
    """The tonic of the scale that has ``note`` as its degree (0 is the tonic itself)."""
    return note.transposed(-degree, -first.semitones[degree])


def test_major_modes_are_those_of_pychord() -> None:
    """pychord's table of modes, in half steps above the tonic, the octave included."""
    from pychord.constants.scales import RELATIVE_KEY_DICT

    names = {"maj": "Ionian", "Dor": "Dorian", "Phr": "Phrygian", "Lyd": "Lydian", "Mix": "Mixolydian",
             "min": "Aeolian", "Loc": "Locrian"}  # fmt: skip
    assert {name: [*scale_named(ours).semitones, 12] for name, ours in names.items()} == RELATIVE_KEY_DICT


@pytest.mark.parametrize("tonic", TONICS)
def test_pentatonics_are_the_black_keys(tonic: str) -> None:
    """The major pentatonic is five notes in a row on the line of fifths, the minor one its sixth mode."""
    note = NoteName.parse(tonic)
    major, minor = PENTATONICS
    assert sorted(name.fifths - note.fifths for name in major.notes(note)) == [0, 1, 2, 3, 4]
    relative = note.transposed(-2, -3)
    assert {*minor.notes(relative)} == {*major.notes(note)}


@pytest.mark.parametrize("tonic", TONICS)
def test_a_blues_scale_is_its_pentatonic_with_one_blue_note(tonic: str) -> None:
    note = NoteName.parse(tonic)
    for blues, plain in zip(BLUES_SCALES, reversed(PENTATONICS), strict=True):
        (blue,) = {*blues.notes(note)} - {*plain.notes(note)}
        assert (blue.pc - note.pc) % 12 == BLUE_NOTES[blues.name]
    minor, major = BLUES_SCALES
    assert {name.pc for name in major.notes(note)} == {
        name.pc for name in minor.notes(note.transposed(-2, -3))
    }


@pytest.mark.parametrize("text", ["C major", "A minor", "F# minor", "Db major", "Bb minor"])
def test_keys_have_the_same_scales(text: str) -> None:
    key = Key.parse(text)
    assert scale_named("Ionian" if key.mode == "major" else "Aeolian").notes(key.tonic) == key.scale()


def test_double_accidentals_where_the_letters_ask_for_them() -> None:
    assert [str(note) for note in scale_named("Lydian augmented").notes(NoteName.parse("G♯"))] == [
        "G♯", "A♯", "B♯", "C♯♯", "D♯♯", "E♯", "F♯♯",
    ]  # fmt: skip
    assert str(scale_named("ultra-Locrian").notes(NoteName.parse("C"))[6]) == "B♭♭"


names = st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-1, 1))


@given(names, st.sampled_from(SCALES), st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (-1, -1)]))
def test_transposing_the_tonic_transposes_the_scale(
    name: NoteName, scale: Scale, move: tuple[int, int]
) -> None:
    moved = scale.notes(name.transposed(*move))
    assert moved == tuple(note.transposed(*move) for note in scale.notes(name))


@given(names, st.sampled_from([scale for scale in SCALES if len(scale.degrees) == 7]))
def test_seven_notes_have_seven_letters(name: NoteName, scale: Scale) -> None:
    assert len({note.letter for note in scale.notes(name)}) == 7
    assert [note.pc for note in scale.notes(name)] == [(name.pc + step) % 12 for step in scale.semitones]


def test_names_are_read_in_any_way() -> None:
    assert scale_named("LYDIAN b7") == scale_named("Lydian ♭7") == scale_named("Lydian dominant")
    assert scale_named("natural minor").name == "Aeolian"
    assert scale_named("dorian #4").name == "Dorian ♯4"
    with pytest.raises(KeyError):
        scale_named("Hypothetian")


def test_a_scale_names_its_own_notes() -> None:
    lydian, d = scale_named("Lydian"), NoteName.parse("D")
    assert str(lydian.note_at(d, 6)) == "G♯"
    assert lydian.note_at(d, 5) is None
    assert lydian.holds(6 + 12)
    assert not lydian.holds(5)

"""Naming chords from their notes: the names of the trade, what decides between them, what must not matter."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.music.key import Key
from studio.music.pitch import NoteName, Pitch
from studio.theory.parts.chord_naming import NamedChord, name_chord
from tests.music.chord_symbols import stack

C = NoteName("C")


def named(text: str, key: str = "", spelled: bool = True) -> NamedChord:
    names = [NoteName.parse(name) for name in text.split()]
    return name_chord(stack(names), Key.parse(key) if key else None, spelled)


@pytest.mark.parametrize(
    ("notes", "name"),
    [
        # Common practice of the trade, note by note from the bass.
        ("C E G", "C"), ("E G C", "C/E"), ("G C E", "C/G"), ("C G", "C5"), ("G C", "C5/G"), ("C G C", "C5"),
        ("C F G", "Csus4"), ("F G C", "Fsus2"), ("C E G A", "C6"), ("A C E G", "Am7"), ("E G A C", "Am7/E"),
        ("C Eb G A", "Cm6"), ("A C Eb G", "Am7♭5"), ("C E G D", "Cadd9"), ("C E G Bb D", "C9"),
        ("C Eb G D", "Cmadd9"), ("Bb C E G", "C7/B♭"), ("B C E G", "Cmaj7/B"), ("G F A C", "F/G"),
        ("G D F A C", "G9sus4"), ("D C E G", "C/D"), ("Db C E G", "C/D♭"), ("F C E G", "C/F"), ("G C D F", "G7sus4"),
        # Shells without a fifth, and voicings of thirteenths as they are played.
        ("C E Bb", "C7"), ("C B E", "Cmaj7"), ("C Bb Eb", "Cm7"), ("C E Bb A", "C13"), ("C E Bb D A", "C13"),
        ("C E Bb D#", "C7♯9"), ("E G# B D G", "E7♯9"), ("C Bb Eb F", "Cm11"), ("C E B F#", "Cmaj7♯11"),
        ("C E A D", "C6/9"), ("C E G A D", "C6/9"),
        # Rootless, the root left to the bass player; where the notes are a chord of their own, that is the name.
        ("E A Bb D", "C13"), ("Bb E A", "C13"), ("E Bb D", "C9"), ("E Bb D#", "C7♯9"), ("B E F A", "G13"),
        ("E G Bb D", "Em7♭5"), ("Eb G Bb D", "E♭maj7"), ("F A C E", "Fmaj7"), ("E G Bb Db", "E°7"),
        # Two notes: a third suggests its triad, a fourth is a power chord upside down.
        ("C E", "C"), ("C Eb", "Cm"), ("E C", "C/E"),
        # One chord over another where no single chord holds the notes, or as another name.
        ("C E G F# A# C#", "C7(♭9♯11)"), ("C E G F G# C#", "C♯|C"), ("C E G Eb Ab", "A♭|C"),
    ],
)  # fmt: skip
def test_names_of_the_trade(notes: str, name: str) -> None:
    assert named(notes).text == name


@pytest.mark.parametrize(
    "notes", ["C", "C C", "C Bb", "C Db", "C F#", "C Db D", "C Db D Eb", "B C C# D D#", "C F# G"]
)
def test_what_has_no_common_name_is_left_without_one(notes: str) -> None:
    found = named(notes)
    assert found.chord is None
    assert found.text == "no common name"
    assert found.reason and found.others == () and found.runner_up == ""


def test_nothing_is_no_chord() -> None:
    assert name_chord([]) == NamedChord(None, (), "Nothing sounds.", 1.0, "")


@pytest.mark.parametrize(
    ("notes", "key", "spelled", "name"),
    [
        # ♯5 and ♭13, ♯11 and ♭5: the spelling tells, and from MIDI the key does, if the note is one of the key's.
        ("C E G# Bb", "", True, "C7♯5"), ("C E Ab Bb", "", True, "C7♭13"),
        ("C E G# Bb", "F minor", False, "C7♭13"), ("C E Ab Bb", "F", False, "C7♯5"),
        ("C E F# Bb", "", True, "C7♯11"), ("C E Gb Bb", "", True, "C7♭5"),
        # Even chords: stacked thirds as they are spelled, or the leading note of the key.
        ("B D F G#", "", True, "G♯°7/B"), ("B D F Ab", "", True, "B°7"), ("B D F Ab", "A minor", False, "G♯°7/B"),
        ("B D F Ab", "C minor", False, "B°7"), ("C E G#", "", True, "C+"), ("C E Ab", "", True, "A♭+/C"),
        # Roots from MIDI are spelled as the key has them.
        ("C# F G#", "Ab", False, "D♭"), ("Db E Ab", "A", False, "C♯m"), ("Ab C Eb", "E", False, "G♯"),
        ("F A C D#", "E", False, "F7"), ("Db F Ab", "C", False, "D♭"), ("C# E G Bb", "D minor", False, "C♯°7"),
        ("E Ab B", "", False, "E"),
        # A slip of the pen does not hide a chord.
        ("C D# G", "", True, "Cm"), ("E Ab B", "", True, "E"),
    ],
)  # fmt: skip
def test_spelling_and_key_decide_between_names(notes: str, key: str, spelled: bool, name: str) -> None:
    assert named(notes, key, spelled).text == name


@pytest.mark.parametrize(
    ("notes", "others"),
    [
        ("C E G A", "Am7/C"), ("C F G", "Fsus2/C"), ("C Eb G A", "Am7♭5/C"), ("E G A C", "C6/E"), ("C E G", ""),
        ("C E G D F# A", "D|C"), ("C E Bb", ""), ("G F A C", ""),
    ],
)  # fmt: skip
def test_equal_names_are_told(notes: str, others: str) -> None:
    found = named(notes)
    assert " ".join(str(chord) for chord in found.others) == others
    for other in found.others:
        assert other.pcs == {NoteName.parse(name).pc for name in notes.split()}


@pytest.mark.parametrize(
    ("notes", "name", "others"),
    [
        ("A E F#", "A6(no3)", ""),
        ("C G A", "C6(no3)", ""),
        ("G C A", "Am7/G", ""),
        ("C# G A#", "G°/D♭", ""),
        ("G# B D F", "G♯°7", "B°7/G♯ D°7/G♯ E♯°7/G♯"),
        ("C E G#", "C+", "E+/C A♭+/C"),
    ],
)
def test_names_that_people_would_write(notes: str, name: str, others: str) -> None:
    """The bass as the root where it can be one, and no root with two sharps: common practice."""
    found = named(notes)
    assert found.text == name
    assert {str(chord) for chord in found.others} <= {*others.split()}


@pytest.mark.parametrize(
    ("notes", "reason"),
    [
        ("E G C", "The notes of C, the third in the bass."),
        ("C E Bb", "The notes of C7 without the fifth."),
        ("C E", "The notes of C without the fifth."),
        ("E A Bb D", "The notes of C13 without the root and the fifth."),
        ("G F A C", "F sounds over G, which is not one of its notes."),
        ("C E G A", "With C in the bass it is C6; the same notes make Am7/C."),
        ("C E G Eb Ab", "A♭ sounds over C: two chords at once."),
        ("C Bb", "C and B♭ alone make no chord."),
        ("C C", "C alone makes no chord."),
        ("C Db D", "These notes have no common name as a chord."),
    ],
)
def test_reasons_are_sentences_that_a_musician_would_say(notes: str, reason: str) -> None:
    assert named(notes).reason == reason


def test_sureness_falls_with_what_is_left_open() -> None:
    falling = ["C E G", "E G C", "C E G A", "G F A C", "E A Bb D", "E C"]
    sureness = [named(notes).sureness for notes in falling]
    assert sureness == sorted(sureness, reverse=True)
    assert sureness[0] > 0.9 and 0.2 <= sureness[-1] < 0.5
    assert named("C E G A").runner_up == "Am7/C"
    assert named("C E G").runner_up == ""


pitches = st.lists(
    st.builds(Pitch, st.builds(NoteName, st.sampled_from("CDEFGAB"), st.integers(-1, 1)), st.integers(2, 5)),
    min_size=1,
    max_size=7,
)
intervals = st.sampled_from(
    [(0, 0), (0, 1), (1, 1), (1, 2), (2, 3), (2, 4), (3, 5), (3, 6), (4, 7), (5, 9), (-1, -2)]
)


Name = tuple[str, tuple[str, ...], int, int]


def heard(chord: Chord | None, half_steps: int = 0) -> Name | None:
    """A chord as it sounds, moved up: a root with two sharps is printed as another note, so spelling may change."""
    if chord is None:
        return None
    root, bass = ((name.pc + half_steps) % 12 for name in (chord.root, chord.lowest))
    return chord.quality, chord.changes, root, bass


def spelled_anew(chord: Chord | None, interval: tuple[int, int]) -> bool:
    """Whether a chord could not be moved back with its spelling: on C𝄪, say, where D is printed instead."""
    return chord is not None and abs(chord.root.transposed(-interval[0], -interval[1]).alter) > 1


@given(pitches, intervals)
def test_transposing_the_notes_transposes_the_name(notes: list[Pitch], interval: tuple[int, int]) -> None:
    found = name_chord(notes)
    moved = name_chord([pitch.transposed(*interval) for pitch in notes])
    assert heard(moved.chord) == heard(found.chord, interval[1])
    assert [*map(heard, moved.others)] == [heard(chord, interval[1]) for chord in found.others]
    if found.chord is not None and found.chord.root in {pitch.name for pitch in notes}:
        assert moved.chord == found.chord.transposed(*interval) or spelled_anew(moved.chord, interval)
    assert moved.sureness == found.sureness


@given(
    st.lists(st.integers(40, 76), min_size=1, max_size=7),
    intervals,
    st.sampled_from(["C", "A minor", "Eb", "F# minor"]),
)
def test_transposing_midi_and_key_transposes_the_name(
    numbers: list[int], interval: tuple[int, int], key_text: str
) -> None:
    key = Key.parse(key_text)
    found = name_chord([Pitch.from_midi(number) for number in numbers], key, spelled=False)
    higher = [Pitch.from_midi(number + interval[1]) for number in numbers]
    moved = name_chord(higher, key.transposed(*interval), spelled=False)
    assert heard(moved.chord) == heard(found.chord, interval[1])
    if found.chord is not None and found.chord.root in key.scale():
        assert moved.chord == found.chord.transposed(*interval) or spelled_anew(moved.chord, interval)


@given(pitches, st.randoms(use_true_random=False))
def test_order_octaves_and_doublings_do_not_matter(notes: list[Pitch], chance) -> None:  # type: ignore[no-untyped-def]
    lowest = min(notes, key=lambda pitch: (pitch.midi, pitch.height))
    more = [*notes, *(Pitch(pitch.name, pitch.octave + 1 + chance.randrange(3)) for pitch in notes)]
    chance.shuffle(more)
    assert name_chord(more) == name_chord(notes)
    assert name_chord([*notes, Pitch(lowest.name, lowest.octave - 1)]) == name_chord(notes)


@given(pitches)
def test_a_name_holds_every_note_that_sounds_over_its_bass(notes: list[Pitch]) -> None:
    found = name_chord(notes)
    if found.chord is not None:
        assert {pitch.name.pc for pitch in notes} <= found.chord.pcs
        lowest = min(notes, key=lambda pitch: pitch.midi)
        rootless = found.chord.root.pc not in {pitch.name.pc for pitch in notes}
        assert rootless or (found.chord.bass or found.chord.root).pc == lowest.name.pc
        assert read_chord(found.chord.text) == found.chord
        assert 0.2 <= found.sureness <= 0.95

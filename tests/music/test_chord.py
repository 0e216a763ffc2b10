"""Chords as values: how they are spelled, printed, cut up, transposed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import harmony

from studio.music.chord import Chord
from studio.music.chord_qualities import QUALITIES, SAME_AS
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName

C = NoteName("C")


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        # Spelled tones as any harmony textbook has them: stacked thirds keep their letters.
        ("Cdim7", "C E♭ G♭ B♭♭"), ("F#m", "F♯ A C♯"), ("F#m7b5", "F♯ A C E"), ("Bmaj7", "B D♯ F♯ A♯"),
        ("Gb7", "G♭ B♭ D♭ F♭"), ("D#m", "D♯ F♯ A♯"), ("Eaug", "E G♯ B♯"), ("Ab13", "A♭ C E♭ G♭ B♭ F"),
        ("C7#9", "C E G B♭ D♯"), ("C7b9", "C E G B♭ D♭"), ("Bbmaj7#11", "B♭ D F A E"), ("E7sus4", "E A B D"),
        ("D/E", "E D F♯ A"), ("D/F#", "D F♯ A"), ("G#dim7", "G♯ B D F"), ("C7alt", "C E B♭ D♭ D♯ F♯ A♭"),
        ("Cadd9", "C E G D"), ("C(no3)", "C G"), ("Fm6/9", "F A♭ C D G"), ("Dbm", "D♭ F♭ A♭"),
    ],
)  # fmt: skip
def test_chords_are_spelled_by_letters(text: str, notes: str) -> None:
    assert " ".join(str(note) for note in read_chord(text).notes()) == notes


@pytest.mark.parametrize(
    ("text", "triad"),
    [
        ("A", "major"), ("Am9", "minor"), ("Adim7", "diminished"), ("Am7b5", "diminished"), ("A+", "augmented"),
        ("A7#5", "augmented"), ("A7b5", "major"), ("Asus2", "suspended"), ("A9sus4", "suspended"),
        ("A5", "power"), ("A7(no3)", "power"), ("A7alt", "major"), ("A6/9", "major"),
    ],
)  # fmt: skip
def test_triads(text: str, triad: str) -> None:
    assert read_chord(text).triad == triad


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("F#m7b5/A", ("F♯", "m", "7♭5", "A")), ("Cmaj7", ("C", "maj", "7", "")), ("E7sus4", ("E", "", "7sus4", "")),
        ("Bbdim7", ("B♭", "dim", "7", "")), ("Am(maj7)", ("A", "m", "maj7", "")), ("Dadd9", ("D", "", "add9", "")),
        ("G", ("G", "", "", "")), ("A/C#", ("A", "", "", "C♯")), ("Caug", ("C", "aug", "", "")),
    ],
)  # fmt: skip
def test_display_parts(text: str, parts: tuple[str, str, str, str]) -> None:
    shown = read_chord(text).display
    assert (shown.root, shown.quality, shown.raised, shown.bass) == parts


def test_a_chord_can_only_hold_known_parts() -> None:
    with pytest.raises(ValueError, match="not a chord quality"):
        Chord(C, "m8")
    with pytest.raises(ValueError, match="not a change"):
        Chord(C, "7", ("♭7",))


# Kinds of music21 (MusicXML's kinds) for the qualities whose spelling is compared.
KINDS = {
    "": "major", "m": "minor", "7": "dominant-seventh", "maj7": "major-seventh", "m7♭5": "half-diminished-seventh",
    "dim7": "diminished-seventh", "aug": "augmented", "m9": "minor-ninth",
}  # fmt: skip


def test_spelling_agrees_with_music21_on_every_root() -> None:
    for place in range(-6, 7):
        root = NoteName.from_fifths(place)
        for quality, kind in KINDS.items():
            theirs = harmony.ChordSymbol(root=str(root).replace("♭", "-").replace("♯", "#"), kind=kind)
            names = {pitch.name.replace("-", "♭").replace("#", "♯") for pitch in theirs.pitches}
            assert {str(note) for note in Chord(root, quality).notes()} == names


@pytest.mark.parametrize("pair", SAME_AS, ids=lambda pair: "+".join(pair))
def test_a_plain_name_holds_the_tones_that_it_stands_for(pair: tuple[str, str]) -> None:
    quality, change = pair
    said_long, said_short = Chord(C, quality, (change,)), Chord.of(C, quality, [change])
    assert {tone.semitones % 12 for tone in said_long.tones} == {
        tone.semitones % 12 for tone in said_short.tones
    }
    assert said_short.quality != quality


def test_a_polychord_is_read_by_its_lower_chord() -> None:
    chord = read_chord("D|C/E")
    assert (chord.root, chord.quality, chord.triad, str(chord.bass)) == (C, "", "major", "E")
    assert [str(note) for note in chord.notes()] == ["C", "E", "G", "D", "F♯", "A"]
    assert chord.upper == Chord(NoteName("D"))
    assert chord.display.upper == Chord(NoteName("D")).display
    with pytest.raises(ValueError, match="no bass"):
        Chord(C, upper=chord)


@given(
    st.sampled_from(list(QUALITIES)),
    st.sampled_from(list(QUALITIES)),
    st.integers(0, 6),
    st.integers(-12, 12),
)
def test_transposing_moves_the_whole_chord(quality: str, upper: str, letters: int, semitones: int) -> None:
    chord = Chord.of(C, quality, [], NoteName("G"), Chord(NoteName("D"), upper))
    moved = chord.transposed(letters, semitones)
    assert moved.tones == chord.tones
    assert moved.notes() == tuple(note.transposed(letters, semitones) for note in chord.notes())
    assert moved.pcs == {(pc + semitones) % 12 for pc in chord.pcs}


@pytest.mark.parametrize(
    ("text", "lowest", "tones"),
    [
        # names of tones as in any harmony textbook; a tenth and a twelfth above a polychord by counting letters
        ("C", "C", "root third fifth"), ("Am7/G", "G", "root third fifth seventh"),
        ("F13/A", "A", "root third fifth seventh ninth thirteenth"), ("Csus4/D", "D", "root fourth fifth"),
        ("Gb|C", "C", "root third fifth seventh ninth twelfth"), ("Eb|C", "C", "root third fifth seventh tenth"),
    ],
)  # fmt: skip
def test_the_lowest_note_and_the_names_of_tones(text: str, lowest: str, tones: str) -> None:
    chord = read_chord(text)
    assert (str(chord.lowest), " ".join(tone.name for tone in chord.tones)) == (lowest, tones)

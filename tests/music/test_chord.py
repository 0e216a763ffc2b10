"""The tones of every chord quality, against other people's tables."""

import mir_eval.chord
import pychord
import pytest
from music21 import harmony
from pychord.constants.qualities import DEFAULT_QUALITIES

from studio.music.chord import Chord, Tone
from studio.music.chord_qualities import ALTERATIONS, QUALITIES
from studio.music.chord_reader import read_chord
from studio.music.pitch import NoteName

C = NoteName("C")

# Each quality in Harte's syntax (Harte et al., ISMIR 2005), which mir_eval.chord reads.
HARTE = {
    "": "maj", "m": "min", "dim": "dim", "aug": "aug", "5": "5", "sus2": "sus2", "sus4": "sus4", "6": "maj6",
    "m6": "min6", "6/9": "maj6(9)", "m6/9": "min6(9)", "7": "7", "maj7": "maj7", "m7": "min7",
    "mMaj7": "minmaj7", "m7♭5": "hdim7", "dim7": "dim7", "dimMaj7": "dim(7)",
    "7alt": "7(*5,b9,#9,#11,b13)", "9": "9", "maj9": "maj9", "m9": "min9", "mMaj9": "minmaj7(9)", "11": "11",
    "maj11": "maj9(11)", "m11": "min11", "mMaj11": "minmaj7(9,11)", "13": "13", "maj13": "maj13",
    "m13": "min13", "mMaj13": "minmaj7(9,11,13)", "7sus2": "sus2(b7)", "7sus4": "sus4(b7)",
    "9sus4": "sus4(b7,9)", "13sus4": "sus4(b7,9,13)", "maj7sus2": "sus2(7)", "maj7sus4": "sus4(7)",
    "maj9sus4": "sus4(7,9)",
}  # fmt: skip

# Each quality as a kind of music21 (MusicXML's kinds), with degrees added where no kind has them.
MUSIC21: dict[str, tuple[str, list[tuple[int, int]]]] = {
    "": ("major", []), "m": ("minor", []), "dim": ("diminished", []), "aug": ("augmented", []),
    "5": ("power", []), "sus2": ("suspended-second", []), "sus4": ("suspended-fourth", []),
    "6": ("major-sixth", []), "m6": ("minor-sixth", []), "6/9": ("major-sixth", [(9, 0)]),
    "m6/9": ("minor-sixth", [(9, 0)]), "7": ("dominant-seventh", []), "maj7": ("major-seventh", []),
    "m7": ("minor-seventh", []), "mMaj7": ("minor-major-seventh", []), "m7♭5": ("half-diminished-seventh", []),
    "dim7": ("diminished-seventh", []), "dimMaj7": ("diminished", [(7, 0)]), "9": ("dominant-ninth", []),
    "maj9": ("major-ninth", []), "m9": ("minor-ninth", []), "mMaj9": ("minor-major-ninth", []),
    "11": ("dominant-11th", []), "maj11": ("major-11th", []), "m11": ("minor-11th", []),
    "mMaj11": ("minor-major-11th", []), "13": ("dominant-13th", []), "maj13": ("major-13th", []),
    "m13": ("minor-13th", []), "mMaj13": ("minor-major-13th", []), "7sus2": ("suspended-second", [(7, -1)]),
    "7sus4": ("suspended-fourth-seventh", []), "9sus4": ("suspended-fourth-seventh", [(9, 0)]),
    "13sus4": ("suspended-fourth-seventh", [(9, 0), (13, 0)]), "maj7sus2": ("suspended-second", [(7, 0)]),
    "maj7sus4": ("suspended-fourth", [(7, 0)]), "maj9sus4": ("suspended-fourth", [(7, 0), (9, 0)]),
}  # fmt: skip

ELEVENTH = "the natural 11 grinds against the major third, and players leave it out of a 13"
NO_ALTERED = "music21 has no altered kind; the tones are checked against mir_eval's degrees alone"
# (quality, library) -> pitch classes above the root that the library has besides ours, and why we differ.
MORE_THAN_OURS = {
    ("13", "mir_eval"): ({5}, ELEVENTH),
    ("maj13", "mir_eval"): ({5}, ELEVENTH),
    ("13", "music21"): ({5}, ELEVENTH),
    ("maj13", "music21"): ({5}, ELEVENTH),
    ("13", "pychord"): ({5}, ELEVENTH),
    ("maj13", "pychord"): ({5}, ELEVENTH),
    ("13♭9", "pychord"): ({5}, ELEVENTH),
    ("13♯9", "pychord"): ({5}, ELEVENTH),
    # pychord builds 7♭9♭13 on its eleventh chord; we take the symbol at its word.
    ("7(♭9♭13)", "pychord"): ({5}, "nothing in the symbol asks for an eleventh"),
}


def tones(chord: Chord) -> set[int]:
    return {tone.semitones % 12 for tone in chord.tones}


def harte(label: str) -> set[int]:
    """Pitch classes of a Harte label, the degrees above the octave folded in, as mir_eval.chord has them."""
    _, quality, degrees, _ = mir_eval.chord.split(f"C:{label}", reduce_extended_chords=True)
    bitmap = mir_eval.chord.quality_to_bitmap(quality).copy()
    for degree in degrees:
        bitmap = bitmap + mir_eval.chord.scale_degree_to_bitmap(degree, modulo=True, length=12)
    return {place for place in range(12) if bitmap[place] > 0}


def explained(quality: str, library: str) -> set[int]:
    return MORE_THAN_OURS.get((quality, library), (set(), ""))[0]


def test_every_quality_is_compared() -> None:
    assert set(HARTE) == set(QUALITIES)
    assert set(MUSIC21) | {"7alt"} == set(QUALITIES), NO_ALTERED


@pytest.mark.parametrize("quality", QUALITIES, ids=lambda quality: quality or "major")
def test_tones_agree_with_mir_eval(quality: str) -> None:
    assert harte(HARTE[quality]) - tones(Chord(C, quality)) == explained(quality, "mir_eval")
    assert tones(Chord(C, quality)) <= harte(HARTE[quality])


@pytest.mark.parametrize("quality", MUSIC21, ids=lambda quality: quality or "major")
def test_tones_agree_with_music21(quality: str) -> None:
    kind, added = MUSIC21[quality]
    symbol = harmony.ChordSymbol(root="C", kind=kind)
    for degree, alter in added:
        symbol.addChordStepModification(harmony.ChordStepModification("add", degree, alter))
    theirs = {pitch.pitchClass for pitch in symbol.pitches}
    assert theirs - tones(Chord(C, quality)) == explained(quality, "music21")
    assert tones(Chord(C, quality)) <= theirs


@pytest.mark.parametrize("name", [name for name, _ in DEFAULT_QUALITIES])
def test_every_chord_that_pychord_knows_has_the_same_tones(name: str) -> None:
    """pychord's whole table, spellings such as 7-5, 7+9 and mM7 among it. "Cb5" is a power chord on C♭ for us."""
    ours = read_chord(f"C{name}")
    theirs = {_pc(note) for note in pychord.Chord(f"C{name}").components()}
    assert theirs - tones(ours) == explained(ours.extension, "pychord")
    assert tones(ours) <= theirs


@pytest.mark.parametrize("change", ALTERATIONS)
@pytest.mark.parametrize("quality", ["7", "9", "13", "m7", "maj7"])
def test_alterations_agree_with_mir_eval(quality: str, change: str) -> None:
    """An alteration takes the place of the plain tone: in Harte's syntax, the old degree out, the new one in."""
    chord = Chord.of(C, quality, [change])
    number = change.lstrip("♭♯")
    degree = change.replace("♭", "b").replace("♯", "#")
    expected = harte(HARTE[quality]) - explained(quality, "mir_eval")
    expected -= {Tone.of(number).semitones % 12} if number in QUALITIES[quality].split() else set()
    expected |= set(_places(mir_eval.chord.scale_degree_to_bitmap(degree, modulo=True, length=12)))
    assert tones(chord) == expected


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


def test_spelling_agrees_with_music21_on_every_root() -> None:
    for place in range(-6, 7):
        root = NoteName.from_fifths(place)
        for quality in ("", "m", "7", "maj7", "m7♭5", "dim7", "aug", "m9"):
            theirs = harmony.ChordSymbol(
                root=str(root).replace("♭", "-").replace("♯", "#"), kind=MUSIC21[quality][0]
            )
            names = {pitch.name.replace("-", "♭").replace("#", "♯") for pitch in theirs.pitches}
            assert {str(note) for note in Chord(root, quality).notes()} == names


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


def _places(bitmap) -> list[int]:  # type: ignore[no-untyped-def]
    return [place for place in range(12) if bitmap[place] > 0]


def _pc(name: str) -> int:
    return (
        {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}[name[0]] + name.count("#") - name.count("b")
    ) % 12

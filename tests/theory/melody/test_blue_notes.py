"""Blue notes against chromatic ornaments. Lines are our own; where a note is blue is common practice (from memory:
Schuller, Early Jazz, has the lowered third and seventh; the lowered fifth came later, with bebop)."""

from fractions import Fraction as F

import pytest

from studio.music.key import Key
from studio.theory.melody.blue_notes import blues_keys
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.note_reading import NoteReading
from studio.theory.wording.melody import tone_words
from tests.theory.charts import COMMON_TIME, chart, line


def reading(bars: str, notes: str, which: int, key: str) -> NoteReading:
    return read_melody(line(notes), chart(bars), keys=((F(0), Key.parse(key)),), time=COMMON_TIME)[which]


@pytest.mark.parametrize(
    ("bars", "notes", "which", "key", "words", "runner_up"),
    [
        # A blues in A: the third bends up, falls, and ends a phrase.
        ("A7 D7", "r A4 C5:1/2 C#5:1/2 A4 C5:4", 1, "A", "blue third", "incomplete neighbour"),
        ("A7 D7", "E5 Eb5:1/2 D5:1/2 C5:1/2 A4:3/2 A4:4", 3, "A", "blue third", "incomplete neighbour"),
        ("A7 D7", "E5 Eb5:1/2 D5:1/2 C5:1/2 A4:3/2 A4:4", 1, "A", "blue fifth", "passing"),
        # A blues in E.
        ("E7 A7", "E4 G4 A4:1/2 Bb4:1/2 A4 G4:4", 1, "E", "blue third", ""),
        ("E7 A7", "E4 G4 A4:1/2 Bb4:1/2 A4 G4:4", 3, "E", "blue fifth", "neighbour"),
        ("E7 A7", "E4 G4 A4:1/2 A#4:1/2 A4 G4:4", 3, "E", "blue fifth", "neighbour"),
        ("E7 B7", "E4:4 B4:1/2 A4:1/2 G4:1/2 E4:5/2", 3, "E", "blue third", "incomplete neighbour"),
        ("E7 B7", "E4:4 A4:2 D5:2", 2, "E", "blue seventh", ""),
        ("A7 E7", "A4:4 E5 G5:2 E5", 2, "A", "blue seventh", ""),
        ("A7 D7 A7", "A4:4 F5 D5 A4:2 A4:4", 1, "A", "blue third of D", ""),
        ("F7 Bb7", "A4:4 D5 Db5 Bb4 Ab4", 2, "F", "blue third of B♭", "incomplete neighbour"),
        # Elsewhere: held, among notes of the minor pentatonic, or bent up.
        ("A D", "A4 C5:1/2 D5:1/2 C5:1/2 A4:3/2 A4:4", 1, "A", "blue third", ""),
        ("C F", "G4:2 Eb5:1/2 E5:3/2 C5:4", 1, "C", "blue third", "incomplete neighbour"),
        ("Am Dm", "A4 D5:1/2 Eb5:1/2 E5:2 D5:4", 2, "A minor", "blue fifth", "passing"),
    ],
)  # fmt: skip
def test_blue_notes(bars: str, notes: str, which: int, key: str, words: str, runner_up: str) -> None:
    found = reading(bars, notes, which, key)
    assert (tone_words(found), found.runner_up) == (words, runner_up), found.reason


@pytest.mark.parametrize(
    ("bars", "notes", "which", "key", "words"),
    [
        # What textbooks have as chromatic ornaments stays one where the song is no blues.
        ("C", "E5:3/2 D#5:1/2 E5:2", 1, "C", "chromatic lower neighbour"),
        ("C", "D5:3/2 D#5:1/2 E5:2", 1, "C", "chromatic passing tone"),
        ("C G7 C", "E5:4 D5 Eb5 D5:2 C5:4", 2, "C", "chromatic upper neighbour"),
        ("Am", "E5:3/2 D#5:1/2 E5:2", 1, "A minor", "chromatic lower neighbour"),
        ("Am", "D5:3/2 D#5:1/2 E5:2", 1, "A minor", "chromatic passing tone"),
        # In a blues too, a lowered third that comes early belongs to the next chord.
        ("A7 D7", "A4:7/2 C5:9/2", 1, "A", "pushed seventh of D7"),
    ],
)
def test_chromatic_ornaments(bars: str, notes: str, which: int, key: str, words: str) -> None:
    assert tone_words(reading(bars, notes, which, key)) == words


@pytest.mark.parametrize(
    ("bars", "notes", "which", "key", "label", "words"),
    [
        # A waltz in E♭ and its G7: nothing blue in it. B♭ is the chord's ♯9, as over G7alt.
        ("Fm7 G7/B Cm7", "D4:4 Bb4:2 C5:2 C5:4", 1, "Eb", "♯9", "♯9, a colour tone"),
        # A blues in F and its D7: E♭ is the chord's ♭9, and D comes with the next chord.
        ("F7 D7 Gm7", "C5:4 C5 A4 F#4 Eb5 D5:4", 4, "F", "♭9", "♭9, leading to D"),
        # The blue fifth over the fourth chord stays blue, and so does the third over the tonic.
        ("F7 Bb7", "F4:4 C5 Cb5 Bb4 Ab4", 2, "F", "♭9", "blue fifth"),
        ("C7", "G4 C5 Eb5:2", 2, "C", "♭3", "blue third"),
    ],
)
def test_what_belongs_to_an_altered_dominant_is_not_blue(
    bars: str, notes: str, which: int, key: str, label: str, words: str
) -> None:
    found = reading(bars, notes, which, key)
    assert found.degree is not None
    assert (found.degree.label, tone_words(found)) == (label, words), found.reason


def test_what_the_sentence_says() -> None:
    bent = reading("A7 D7", "r A4 C5:1/2 C#5:1/2 A4 C5:4", 1, "A")
    assert bent.reason == "C is the lowered third of A, a blue note over A7, and bends up to C♯."
    fifth = reading("E7 A7", "E4 G4 A4:1/2 Bb4:1/2 A4 G4:4", 3, "E")
    assert fifth.reason == "B♭ lies between the fourth and the fifth of E, a blue note."


def test_an_ornament_is_less_surely_blue() -> None:
    alone = reading("E7 A7", "E4 G4 A4:1/2 Bb4:1/2 A4 G4:4", 1, "E")
    between = reading("E7 A7", "E4 G4 A4:1/2 Bb4:1/2 A4 G4:4", 3, "E")
    elsewhere = reading("C F", "G4:2 Eb5:1/2 E5:3/2 C5:4", 1, "C")
    assert alone.sureness > between.sureness > elsewhere.sureness


@pytest.mark.parametrize(
    ("bars", "key", "blues"),
    [
        ("A7 D7 A7 E7", "A", True), ("C6 F9 C13 G7", "C", True), ("A D A E7", "A", False),
        ("Cmaj7 C7 F G7", "C", True), ("C F C . C7 F", "C", False), ("Am7 Dm7 Am7 E7", "A minor", False),
    ],
)  # fmt: skip
def test_a_blues_is_where_the_tonic_is_a_dominant_seventh(bars: str, key: str, blues: bool) -> None:
    """Half of the time is enough; the C7 that leads to F in C is not."""
    keys = ((F(0), Key.parse(key)),)
    assert (Key.parse(key) in blues_keys(chart(bars), keys)) is blues


def test_without_a_key_nothing_is_blue() -> None:
    found = read_melody(line("E4 G4 A4:1/2 Bb4:1/2 A4"), chart("E7"))
    assert not any(one.kind.startswith("blue") for one in found)

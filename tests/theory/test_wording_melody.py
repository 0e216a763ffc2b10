"""Words for written lines: short, and as musicians say them."""

from fractions import Fraction as F

import pytest

from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.theory.melody.approaches import half_step_approaches
from studio.theory.melody.compass import compass
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.note_reading import NoteReading
from studio.theory.wording.melody import (
    approach_words,
    beat_words,
    degree_words,
    half_step_words,
    highest_words,
    lowest_words,
    range_words,
    scale_degree_words,
    tessitura_words,
    tone_words,
)
from tests.theory.charts import COMMON_TIME, chart, line


def readings(bars: str, notes: str, key: str = "C", bass: bool = False) -> tuple[NoteReading, ...]:
    keys = ((F(0), Key.parse(key)),)
    return read_melody(line(notes), chart(bars), keys=keys, time=COMMON_TIME, bass=bass)


@pytest.mark.parametrize(
    ("bars", "notes", "which", "words"),
    [
        ("F#m", "A4", 0, "third of F♯m"), ("A13", "F#5", 0, "thirteenth of A13"), ("G5", "B4", 0, "third of G5"),
        ("D/E", "E4", 0, "bass of D/E"), ("Cadd9", "D5", 0, "ninth of Cadd9"), ("N.C.", "D5", 0, "no chord"),
        ("C G", "C5:5 B4:3", 1, "4–3 suspension"), ("C G", "C5:5 A4 B4:2", 1, "decorated 4–3 suspension"),
        ("G C", "B4:6 C5:2", 1, "7–8 retardation"),
        ("C", "C5:3/2 D5:1/2 E5:2", 1, "passing tone"), ("C", "C5:2 D5 E5", 1, "accented passing tone"),
        ("C", "D5:3/2 D#5:1/2 E5:2", 1, "chromatic passing tone"), ("C", "G4 A4 B4:1/2 C5", 1, "double passing tone"),
        ("C", "E5:3/2 F5:1/2 E5:2", 1, "upper neighbour"), ("C", "C5:3/2 B4:1/2 C5:2", 1, "lower neighbour"),
        ("C", "E5:3/2 D#5:1/2 E5:2", 1, "chromatic lower neighbour"),
        ("C", "C5:3/2 D5:1/4 B4:1/4 C5:2", 1, "double neighbour"), ("C", "G4:1/2 D5:1/2 B4:1/2 C5", 2, "enclosure"),
        ("C G", "C5:7/2 B4:9/2", 1, "pushed third of G"), ("C G", "C5:7/2 B4:1/2 B4:4", 1, "anticipation"),
        ("C", "G4:2 D5 C5", 1, "appoggiatura"), ("E", "B4:2 F5 E5", 1, "♭2, leading to the root"),
        ("C", "C5:3/2 D5:1/2 G5:2", 1, "incomplete neighbour"), ("C", "E5:3/2 F5:1/2 C5:2", 1, "escape tone"),
        ("C7", "G4 C5 Eb5:2", 2, "blue third"), ("Am7", "E5 C5 B4:1/2 B4:3/2", 2, "9, a colour tone"),
        ("C G7 C", "C4:12", 1, "pedal point"), ("C", "C5:2 F5:2", 1, "unresolved 4"),
        ("Gm Eb", "D5:2 F5:2 C5:4", 1, "added seventh"),
        ("F", "F3 E3 Eb3 D3:1/2 C3", 2, "chromatic triple passing tone"),
        ("C6 G/B", "C5 B4 G4 A4 B4:4", 1, "cambiata"),
    ],
)  # fmt: skip
def test_tones(bars: str, notes: str, which: int, words: str) -> None:
    assert tone_words(readings(bars, notes)[which]) == words


def test_a_suspension_in_the_bass_says_so() -> None:
    held = readings("G C", "D3:5 C3:3", bass=True)[1]
    assert tone_words(held) == "2–3 suspension in the bass"


def test_degrees_over_the_chord_and_in_the_key() -> None:
    (note,) = readings("Am", "C5", "A minor")
    assert (degree_words(note), scale_degree_words(note)) == ("♭3", "♭3 of A minor")
    assert scale_degree_words(note, "common-practice") == "3 of A minor"
    assert scale_degree_words(read_melody(line("C5"), chart("Am"))[0]) == ""


def test_how_notes_are_come_to_and_left() -> None:
    found = readings("C C F", "C5 D5 E5 F5 F5 F4 r:2 A4:4")
    assert [approach_words(one.approach) for one in found] == [
        "", "step up", "step up", "half step up", "struck again", "leap down an octave", "",
    ]  # fmt: skip
    assert approach_words(readings("C F", "C5:8")[1].approach) == "held"


def test_beats() -> None:
    found = readings("C", "C5 C5:1/2 C5:1/2 C5 C5")
    assert [beat_words(one) for one in found] == [
        "downbeat", "weak beat", "offbeat", "strong beat", "weak beat",
    ]  # fmt: skip
    assert beat_words(read_melody(line("C5"), chart("C"))[0]) == ""


def test_range_and_where() -> None:
    notes = line("A3:2 r:2 C4 E4 G4:1/2 E5:3/2 D4:4 C4:3/2 E5:1/2 C4:2")
    found = compass(notes)
    assert found is not None
    assert range_words(found) == "A3 to E5"
    assert tessitura_words(found) == "mostly C4 to D4"
    assert highest_words(found, COMMON_TIME) == "E5, bar 2, the and of 3, and once more"
    assert lowest_words(found, COMMON_TIME) == "A3, bar 1 beat 1"
    one = compass(line("A4"))
    assert one is not None
    assert (range_words(one), tessitura_words(one)) == ("A4", "mostly A4")


def test_moments_in_compound_time() -> None:
    six = SongTime(((1, Meter(6, 8)),), ((F(0), F(0)), (F(3), F(2))))
    found = compass(line("C5:7/2 E5:1/2 D5 E4:3/2"))
    assert found is not None
    assert highest_words(found, six) == "E5, bar 2, in beat 1"


def test_half_steps() -> None:
    found = half_step_approaches(readings("E A", "B4:3 G#4 A4:4", "A"))
    assert [half_step_words(one, COMMON_TIME) for one in found] == ["G♯ to A, bar 2"]

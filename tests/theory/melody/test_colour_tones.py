"""Colour tones against ornaments. Lines and voicings are our own; which notes colour which chords is common practice
(jazz teaching's available tensions, from memory)."""

from fractions import Fraction as F

import pytest

from studio.music.chord_reader import read_chord
from studio.music.key import Key
from studio.music.note import Note
from studio.theory.melody.colour_tones import colours
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.note_reading import NoteReading
from studio.theory.wording.melody import tone_words
from tests.theory.charts import COMMON_TIME, chart, line

KEYS = ((F(0), Key.parse("C")),)


def read(bars: str, *voices: str) -> list[NoteReading]:
    notes: list[Note] = [note for voice in voices for note in line(voice)]
    return list(read_melody(notes, chart(bars), keys=KEYS, time=COMMON_TIME))


def test_rootless_voicings_hold_colours() -> None:
    """ii–V–I: the A of G13 stays a 9 though it falls to G with the next chord."""
    found = read("Dm7 G7 Cmaj7", "E5:4 E5:4 D5:4", "C5:4 B4:4 B4:4", "A4:4 A4:4 G4:4", "F4:4 F4:4 E4:4")
    told = {
        (one.span.start, str(one.note.pitch)): tone_words(one) for one in found if one.kind != "chord tone"
    }
    assert told == {
        (F(0), "E5"): "9, a colour tone",
        (F(4), "A4"): "9, a colour tone",
        (F(4), "E5"): "13, a colour tone",
        (F(8), "D5"): "9, a colour tone",
    }
    (ninth,) = (one for one in found if one.span.start == 4 and str(one.note.pitch) == "A4")
    assert (ninth.runner_up, ninth.sureness) == ("suspension 9–8", 0.85)
    assert ninth.reason == "A is held in the chord, the 9 of G7."


def test_what_resolves_inside_the_chord_is_suspended() -> None:
    found = read("Dm7 G7", "C5:4 C5:2 B4:2", "A4:4 G4:4", "F4:4 F4:4")
    assert [one.kind for one in found if one.kind != "chord tone"] == ["suspension 4–3"]


@pytest.mark.parametrize(
    ("bars", "notes", "which", "words", "runner_up"),
    [
        ("Cmaj7", "G4 B4 D5 G4", 2, "9, a colour tone", ""),
        ("G7 C", "D5:2 E5:2 C5:4", 1, "13, a colour tone", "escape"),
        ("Dm7", "F4 A4 G4 D5", 2, "11, a colour tone", "escape"),
        ("Dm7", "F4:3/2 G4:1/2 A4:2", 1, "passing tone", ""),
        ("Am G", "E5:4 G4 A4:3", 2, "2, a colour tone", ""),
        ("Fmaj7", "C5:2 B4 G4", 1, "♯11, a colour tone", "incomplete neighbour"),
        ("C G", "C5:5 E5:1/2 D5:1/2 G4:2", 1, "unresolved 4", ""),
        ("Dm7", "C5 F5:3/2 G5:1/2 C5", 2, "escape tone", ""),
    ],
)
def test_in_a_line(bars: str, notes: str, which: int, words: str, runner_up: str) -> None:
    found = read(bars, notes)[which]
    assert (tone_words(found), found.runner_up) == (words, runner_up), found.reason


@pytest.mark.parametrize(
    ("chord", "held", "foreign"),
    [
        ("Cmaj7", "9 13 ♯11", "11 ♭9 ♭13"), ("G7", "9 13 ♯11 ♭9 ♯9 ♭13", "11"), ("Dm7", "9 11 13", "♯11 ♭9"),
        ("Bm7b5", "11", "13 ♭9"), ("F", "9 6 ♯4", "4 ♭9"), ("Am", "9 6 4", "♭9"),
    ],
)  # fmt: skip
def test_colours_of_chords(chord: str, held: str, foreign: str) -> None:
    assert all(colours(label, read_chord(chord)) for label in held.split())
    assert not any(colours(label, read_chord(chord)) for label in foreign.split())

"""Our names for non-chord tones against the labels of open textbooks' worked examples (see worked_examples).

The books' examples that could be had as text are in; Open Music Theory's and Hutchinson's own are pictures,
so that their definitions are turned into examples at the end of this file, and marked as such.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from studio.music.chart import Chart, ChordAt
from studio.music.chord_reader import read_chord
from studio.music.key import Key
from studio.music.meter import Meter
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.songtime import SongTime
from studio.theory.melody.degrees import NoteReading, read_melody
from tests.theory.charts import chart, line
from tests.theory.melody.worked_examples import ALL, WorkedExample

KIND_OF_LABEL = {
    "pt": "passing", "dpt": "passing", "nt": "neighbour", "ng": "double neighbour", "ing": "enclosure",
    "sus": "suspension 9–8", "ret": "retardation", "app": "appoggiatura", "et": "escape",
    "ant": "anticipation", "ped": "pedal", "int": "incomplete neighbour", "fig": "chord tone",
    "V7?": "passing", "cambiata": "cambiata", "2–3": "suspension 2–3", "4–5": "suspension 4–5",
    "7–6": "suspension 7–6", "4–3": "suspension 4–3",
}  # fmt: skip


def chords_of(example: WorkedExample) -> Chart:
    found, start = [], F(0)
    for token in example.chords.split():
        symbol, _, length = token.rpartition(":")
        found.append(ChordAt(start, F(length), read_chord(symbol)))
        start += F(length)
    return Chart(tuple(found))


def voice_of(text: str, staff: int = 1) -> list[tuple[Note, str]]:
    """The notes of a voice, each with its label or ""."""
    found, start = [], F(0)
    for token in text.split():
        written, _, label = token.partition("=")
        name, _, length = written.partition(":")
        if name != "r":
            found.append((Note(start, F(length or 1), Pitch.parse(name), staff), label))
        start += F(length or 1)
    return found


def time_of(example: WorkedExample) -> SongTime:
    return SongTime(((1, Meter.parse(example.meter)),), ((F(0), F(0)), (F(4), F(2))))


def readings_of(example: WorkedExample, notes: list[Note], bass: bool = False) -> tuple[NoteReading, ...]:
    keys = ((F(0), Key.parse(example.key)),)
    return read_melody(notes, chords_of(example), keys=keys, time=time_of(example), bass=bass)


def told(readings: tuple[NoteReading, ...], note: Note) -> NoteReading:
    """What is said of a note; of one that is held across a chord change, over its last chord."""
    return [reading for reading in readings if reading.note == note][-1]


LABELLED = [
    pytest.param(example, voice, place, id=f"{example.source}, voice {voice + 1}, {note.pitch} {label}")
    for example in ALL
    for voice, text in enumerate(example.voices)
    for place, (note, label) in enumerate(voice_of(text))
    if label
]


def test_there_are_enough_of_them() -> None:
    assert len(LABELLED) >= 60


@pytest.mark.parametrize(("example", "voice", "place"), LABELLED)
def test_a_voice_by_itself(example: WorkedExample, voice: int, place: int) -> None:
    notes = voice_of(example.voices[voice])
    note, label = notes[place]
    bass = voice == len(example.voices) - 1 and voice > 0
    reading = told(readings_of(example, [note for note, _ in notes], bass), note)
    assert reading.kind.startswith(KIND_OF_LABEL[label]), reading.reason
    if label == "dpt":
        assert "double" in reading.traits
    if label == "V7?":
        assert reading.runner_up == "chord tone"


@pytest.mark.parametrize(("example", "voice", "place"), LABELLED)
def test_all_voices_as_one_part(example: WorkedExample, voice: int, place: int) -> None:
    """Voices are found again when all are written as one piano part, two voices to a staff."""
    staves = [1 if 2 * number < len(example.voices) else 2 for number in range(len(example.voices))]
    voices = [voice_of(text, staff) for text, staff in zip(example.voices, staves, strict=True)]
    note, label = voices[voice][place]
    reading = told(readings_of(example, [note for one in voices for note, _ in one]), note)
    assert reading.kind.startswith(KIND_OF_LABEL[label]), reading.reason


@pytest.mark.parametrize(
    "example", [one for one in ALL if "Butterfield" in one.source], ids=lambda example: example.source
)
def test_what_the_book_does_not_label_is_a_chord_tone(example: WorkedExample) -> None:
    for text in example.voices:
        notes = voice_of(text)
        for reading in readings_of(example, [note for note, _ in notes]):
            label = next(label for note, label in notes if note == reading.note)
            assert label or reading.kind == "chord tone", reading.reason


# Definitions turned into examples: the notes are ours, the definition is the book's.
OPEN_MUSIC_THEORY = "Open Music Theory (first edition), "
HUTCHINSON = "Robert Hutchinson, Music Theory for the 21st-Century Classroom, "


@pytest.mark.parametrize(
    ("source", "bars", "notes", "which", "kind"),
    [
        (OPEN_MUSIC_THEORY + "third species: “C–D–B–C or C–B–D–C”", "C", "C5 D5 B4 C5", (1, 2), "double neighbour"),
        (OPEN_MUSIC_THEORY + "third species: “C–D–B–C or C–B–D–C”", "C", "C5 B4 D5 C5", (1, 2), "double neighbour"),
        (OPEN_MUSIC_THEORY + "third species: nota cambiata, “down by step – down by third – up by step – up by step”",
         "C6 G/B", "C5 B4 G4 A4 B4:4", (1,), "cambiata"),
        (OPEN_MUSIC_THEORY + "third species: nota cambiata, “up by step – up by third – down by step – down by step”",
         "C Am", "G4 A4 C5 B4 A4:4", (1,), "cambiata"),
        (OPEN_MUSIC_THEORY + "embellishing tones: two passing tones “between two chord tones a fourth apart”",
         "C", "G4 A4 B4 C5", (1, 2), "passing"),
        (HUTCHINSON + "10.5: “approached by step and left by leap in the opposite direction”",
         "C", "E5 F5 C5:2", (1,), "escape"),
        (HUTCHINSON + "10.9: “9-8, 7-6, 4-3, 2-3, and sometimes 6-5”", "G C", "D5:6 C5:2", (1,), "suspension 9–8"),
        (HUTCHINSON + "10.9: “9-8, 7-6, 4-3, 2-3, and sometimes 6-5”", "G C/E", "D5:6 C5:2", (1,), "suspension 7–6"),
        (HUTCHINSON + "10.9: “9-8, 7-6, 4-3, 2-3, and sometimes 6-5”", "Dm C", "F5:6 E5:2", (1,), "suspension 4–3"),
        (HUTCHINSON + "10.9: “9-8, 7-6, 4-3, 2-3, and sometimes 6-5”", "F C", "A4:6 G4:2", (1,), "suspension 6–5"),
        (HUTCHINSON + "10.9: “5-4 or 3-2” when a chord is inverted", "G7 C/G", "D5:6 C5:2", (1,), "suspension 5–4"),
        (HUTCHINSON + "10.6: “both the upper and lower neighbor occur before the return”",
         "C", "E5 F5 D5 E5", (1, 2), "double neighbour"),
    ],
)  # fmt: skip
def test_definitions(source: str, bars: str, notes: str, which: tuple[int, ...], kind: str) -> None:
    found = read_melody(line(notes), chart(bars))
    assert [found[place].kind for place in which] == [kind] * len(which), source

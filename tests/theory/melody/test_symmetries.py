"""What must not change a reading: another key, another octave, notes twice as long."""

from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chart import Chart, ChordAt
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.theory.melody.degrees import read_melody
from studio.theory.melody.tone import KINDS
from tests.theory.charts import COMMON_TIME, chart

SONG = chart("| C Am | F/A G7 | E7 . Am Dm7 | G5 C |")
IN_C = ((F(0), Key.parse("C")),)
SCALE = ["G4", "A4", "B4", "C5", "C#5", "D5", "E5", "F5", "F#5", "G5"]

melodies = st.lists(
    st.tuples(st.sampled_from(SCALE), st.sampled_from([1, 2, 3, 4]), st.sampled_from([0, 0, 0, 1, 3])),
    min_size=1, max_size=24,
)  # fmt: skip


def written(melody: list[tuple[str, int, int]]) -> list[Note]:
    """Notes of some eighths, each after some eighths of rest."""
    found, at = [], F(0)
    for name, eighths, rest in melody:
        at += F(rest, 2)
        found.append(Note(at, F(eighths, 2), Pitch.parse(name)))
        at += F(eighths, 2)
    return found


def moved(notes: list[Note], letters: int, semitones: int) -> list[Note]:
    return [replace(note, pitch=note.pitch.transposed(letters, semitones)) for note in notes]


@given(melodies, st.sampled_from([(1, 2), (2, 3), (3, 5), (4, 7), (-1, -1), (-2, -3)]))
def test_another_key_changes_names_and_nothing_else(
    melody: list[tuple[str, int, int]], interval: tuple[int, int]
) -> None:
    notes = written(melody)
    song = Chart(tuple(replace(at, chord=at.chord and at.chord.transposed(*interval)) for at in SONG.chords))
    keys = ((F(0), IN_C[0][1].transposed(*interval)),)
    there = read_melody(moved(notes, *interval), song, keys=keys, time=COMMON_TIME)
    for one, other in zip(read_melody(notes, SONG, keys=IN_C, time=COMMON_TIME), there, strict=True):
        assert (one.degree, one.kind, one.traits, one.span) == (
            other.degree,
            other.kind,
            other.traits,
            other.span,
        )
        assert (one.sureness, one.runner_up, one.beat) == (other.sureness, other.runner_up, other.beat)
        assert one.approach.semitones == other.approach.semitones
        assert one.scale_degree is not None
        assert other.scale_degree is not None
        assert one.scale_degree.degree == other.scale_degree.degree


@given(melodies, st.sampled_from([-2, -1, 1]))
def test_another_octave_changes_nothing(melody: list[tuple[str, int, int]], octaves: int) -> None:
    notes = written(melody)
    there = read_melody(moved(notes, 7 * octaves, 12 * octaves), SONG, keys=IN_C)
    for one, other in zip(read_melody(notes, SONG, keys=IN_C), there, strict=True):
        assert one.kind in KINDS or one.kind.split()[0] in ("suspension", "retardation")
        assert (one.degree, one.kind, one.reason, one.traits) == (
            other.degree,
            other.kind,
            other.reason,
            other.traits,
        )


@given(melodies, st.sampled_from([F(2), F(3), F(1, 2)]))
def test_longer_or_shorter_notes_change_no_kind(melody: list[tuple[str, int, int]], times: F) -> None:
    notes = written(melody)
    slow = [replace(note, onset=note.onset * times, length=note.length * times) for note in notes]
    song = Chart(tuple(ChordAt(at.start * times, at.length * times, at.chord) for at in SONG.chords))
    here, there = read_melody(notes, SONG), read_melody(slow, song)
    assert [(one.degree, one.kind, one.traits) for one in here] == [
        (one.degree, one.kind, one.traits) for one in there
    ]


@settings(max_examples=50)
@given(melodies, melodies)
def test_two_hands_are_read_as_if_each_were_alone(
    right: list[tuple[str, int, int]], left: list[tuple[str, int, int]]
) -> None:
    """Only a suspended bass has other figures when something sounds above it."""
    upper = written(right)
    lower = [replace(note, staff=2) for note in moved(written(left), -14, -24)]
    together = read_melody([*upper, *lower], SONG)
    assert [(one.note, one.kind) for one in together if one.note.staff == 1] == [
        (one.note, one.kind) for one in read_melody(upper, SONG)
    ]
    assert [one.note for one in together if one.note.staff == 2] == [
        one.note for one in read_melody(lower, SONG)
    ]

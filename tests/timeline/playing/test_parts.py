"""A part's notes as they are played, and with one of them changed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.chord_reader import read_chord
from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from studio.music.place import Span
from studio.project.model import Instead, Play
from studio.timeline.heard import RATE
from studio.timeline.playing import replaced, tones_of
from studio.timeline.playing.read_instead import nearest
from tests.theory.charts import line
from tests.timeline.playing.songs import bars, change, song, struck_at

BEAT = RATE // 2
START = RATE // 2
LEAD = Play("part", "lead")
KEYS = Play("part", "keys")
TUNE = line("C5 D5 E5 G5 A5:2 G5:2 E5:4")
COMPING = tuple(
    Note(F(at), F(length), Pitch.parse(name))
    for at, length, names in ((0, 2, "C3 G4 C5 E5"), (2, 2, "C3 G4 C5 E5"), (4, 4, "F3 A4 C5 F5"))
    for name in names.split()
)
ARPEGGIO = (Note(F(0), F(4), Pitch.parse("C3")), *line("G4 C5 E5 C5"))


def lead() -> dict[str, tuple[Note, ...]]:
    return {"lead": TUNE}


def test_a_part_sounds_as_it_is_written() -> None:
    tones = tones_of(LEAD, bars(1, 3), song(parts=lead()))
    assert [tone.midi for tone in tones] == [note.pitch.midi for note in TUNE]
    assert [tone.start for tone in tones] == [START + note.onset * BEAT for note in TUNE]
    assert [tone.length for tone in tones] == [note.length * BEAT for note in TUNE]


def test_a_note_held_into_the_stretch_starts_with_it_and_one_held_out_of_it_ends_with_it() -> None:
    tones = tones_of(LEAD, Span(F(5), F(9)), song(parts=lead()))
    assert [(tone.start, tone.length) for tone in tones] == [
        (START + 5 * BEAT, BEAT), (START + 6 * BEAT, 2 * BEAT), (START + 8 * BEAT, BEAT)
    ]  # fmt: skip


def test_first_beats_lean() -> None:
    loud = [
        tone.loud for tone in tones_of(LEAD, bars(1, 1), song(parts={"lead": line("C5 D5:1/2 E5:1/2 F5:2")}))
    ]
    assert loud[0] > loud[1] == loud[3] > loud[2]


# Instead


def changed(made: Instead) -> list[tuple[int, int]]:
    """(quarters, MIDI) of each note of the tune with a change."""
    tones = tones_of(LEAD, bars(1, 3), song(parts=lead()), [made])
    return [((tone.start - START) // BEAT, tone.midi) for tone in tones]


@pytest.mark.parametrize(
    ("sound", "midi"), [("F5", 77), ("F4", 65), ("F", 77), ("F#", 78), ("Bb", 82), ("C", 72), ("Bb4", 70)]
)
def test_a_note_has_its_octave_or_the_nearest(sound: str, midi: int) -> None:
    """MIDI numbers as in General MIDI and scientific pitch: C4 is 60."""
    assert changed(change(sound, 2)) == [(0, 72), (1, 74), (2, midi), (3, 79), (4, 81), (6, 79), (8, 76)]


def test_a_moment_inside_a_note_is_of_that_note() -> None:
    assert changed(change("B4", 5)) == [(0, 72), (1, 74), (2, 76), (3, 79), (4, 71), (6, 79), (8, 76)]
    assert replaced(LEAD, bars(1, 3), song(parts=lead()), [change("B4", 5)]) == (Span(F(4), F(6)),)


def test_a_stretch_keeps_the_rhythm_of_the_notes_that_begin_in_it() -> None:
    assert changed(change("G", 1, 4)) == [(0, 72), (1, 79), (2, 79), (3, 79), (4, 81), (6, 79), (8, 76)]
    assert replaced(LEAD, bars(1, 3), song(parts=lead()), [change("G", 1, 4)]) == (Span(F(1), F(4)),)


def test_a_rest_leaves_notes_out() -> None:
    assert changed(change("rest", 4, 8)) == [(0, 72), (1, 74), (2, 76), (3, 79), (8, 76)]


def test_what_is_replaced_lies_within_what_is_heard() -> None:
    span = Span(F(0), F(5))
    assert replaced(LEAD, span, song(parts=lead()), [change("B", 4)]) == (Span(F(4), F(5)),)


def test_another_chord_for_a_part_that_plays_chords_lies_near_it() -> None:
    facts = song(parts={"keys": COMPING})
    tones = struck_at(tones_of(KEYS, bars(1, 2), facts, [change("Fm", 4)]))
    assert tones[START + 4 * BEAT] == [53, 68, 72, 77]
    assert tones[START] == [48, 67, 72, 76]


def test_a_chord_over_a_stretch_keeps_its_rhythm() -> None:
    tones = struck_at(tones_of(KEYS, bars(1, 2), song(parts={"keys": COMPING}), [change("D", 0, 4)]))
    assert list(tones) == [START, START + 2 * BEAT, START + 4 * BEAT]
    for at in (START, START + 2 * BEAT):
        assert {midi % 12 for midi in tones[at]} == read_chord("D").pcs
        assert tones[at][0] == 50


def test_a_broken_chord_stays_broken() -> None:
    tones = struck_at(tones_of(KEYS, bars(1, 1), song(parts={"keys": ARPEGGIO}), [change("Fm", 0, 4)]))
    assert tones == {START: [53, 68], START + BEAT: [72], START + 2 * BEAT: [77], START + 3 * BEAT: [72]}


def moved(keys: str, sound: str, *more: tuple[float, float, str]) -> dict[int, list[str]]:
    """What is struck at each beat where a bar of these keys, and more of them, is played as another chord."""
    written = ((0, 4, keys), *more)
    notes = tuple(
        Note(F(at), F(length), Pitch.parse(name)) for at, length, names in written for name in names.split()
    )
    ordered = tuple(sorted(notes, key=lambda note: (note.onset, note.pitch.midi)))
    tones = struck_at(tones_of(KEYS, bars(1, 1), song(parts={"keys": ordered}), [change(sound, 0, 4)]))
    return {
        (at - START) // BEAT: [str(Pitch.from_midi(midi)) for midi in midis] for at, midis in tones.items()
    }


# Keyboard harmony: what two chords have in common stays, what must move moves least, and the top is heard as a line.


@pytest.mark.parametrize(
    ("keys", "sound", "found"),
    [
        ("C#3 A3 C#4 E4 A4", "A7/C#", "C♯3 G3 C♯4 E4 A4"),
        ("D3 A3 E4 F#4 A4", "D7", "D3 A3 C4 F♯4 A4"),
        ("G2 D3 D4 G4 B4", "Gm", "G2 D3 D4 G4 B♭4"),
        ("B2 F#3 B3 D4 B4", "Bm7", "B2 F♯3 A3 D4 B4"),
        ("C3 E4 G4 C5", "C/E", "E3 E4 G4 C5"),
        ("C3 E4 G4 B4", "Am7", "A2 E4 G4 C5"),
    ],
)
def test_as_few_keys_move_as_can_and_the_top_stays_where_it_belongs_to_the_chord(
    keys: str, sound: str, found: str
) -> None:
    assert moved(keys, sound)[0] == found.split()


def test_a_chord_that_is_struck_again_lies_as_it_did() -> None:
    found = moved("C#3 A3", "A7/C#", (0, 2, "C#4 E4 A4"), (2, 2, "C#4 E4 A4"))
    assert found == {0: ["C♯3", "G3", "C♯4", "E4", "A4"], 2: ["C♯4", "E4", "A4"]}


def test_a_bass_that_goes_before_its_chord_takes_the_bass() -> None:
    found = {
        at: keys
        for at, keys in moved("C3", "Am", (1, 1, "E4 G4 C5"), (2, 2, "E4 G4 C5")).items()
        if at in (0, 1, 2)
    }
    assert found[0] == ["A2"]
    assert found[1] == found[2] == ["E4", "A4", "C5"]


@given(
    st.lists(st.integers(40, 84), min_size=2, max_size=6, unique=True),
    st.sampled_from(["C", "F#m7", "Bb", "E7/G#", "Am", "Dm7b5", "Gsus4", "Abmaj7"]),
)
def test_another_chord_has_as_many_keys_and_none_but_its_own_tones(keys: list[int], sound: str) -> None:
    notes = tuple(Note(F(0), F(4), Pitch.from_midi(midi)) for midi in sorted(keys))
    facts = song(parts={"keys": notes})
    try:
        (found,) = struck_at(tones_of(KEYS, bars(1, 1), facts, [change(sound, 0, 4)])).values()
    except ValueError as already:
        assert "already" in str(already)
        return
    chord = read_chord(sound)
    assert {midi % 12 for midi in found} <= chord.pcs
    assert found[0] % 12 == chord.lowest.pc
    assert len(found) == len(keys)
    *others, top = sorted(keys)
    if top - others[-1] > 12:  # where nothing below is in its way
        assert found[-1] == top if top % 12 in chord.pcs else abs(found[-1] - top) <= 3


@given(st.sampled_from("ABCDEFG"), st.integers(-1, 1), st.integers(24, 100))
def test_the_nearest_octave_is_at_most_a_tritone_away(letter: str, alter: int, midi: int) -> None:
    name = NoteName(letter, alter)
    found = nearest(name, midi)
    assert found % 12 == name.pc
    assert -5 <= found - midi <= 6


@given(st.integers(0, 11), st.integers(40, 90))
def test_a_change_and_the_change_back_are_what_is_written(at: int, midi: int) -> None:
    facts = song(parts=lead())
    written = tones_of(LEAD, bars(1, 3), facts)
    name = str(Pitch.from_midi(midi))
    here = next(note for note in TUNE if note.sounds_at(F(at)))
    if here.pitch.midi == midi:
        return
    other = tones_of(LEAD, bars(1, 3), facts, [change(name, at)])
    back = {
        "lead": tuple(replace(note, pitch=Pitch.from_midi(midi)) if note == here else note for note in TUNE)
    }
    assert tones_of(LEAD, bars(1, 3), song(parts=back)) == other
    assert tones_of(LEAD, bars(1, 3), song(parts=back), [change(str(here.pitch), at)]) == written


@pytest.mark.parametrize(
    ("play", "span", "changes", "sentence"),
    [
        (Play("part", "flute"), bars(1, 1), (), "'flute' is not a part of the song"),
        (LEAD, bars(4, 4), (), "lead plays nothing in bar 4; name a stretch in which it plays"),
        (
            LEAD,
            bars(1, 3),
            (change("G", 30),),
            "lead plays no note at 8.3 that could be changed; name a moment in",
        ),
        (LEAD, bars(1, 1), (change("G", 8),), "lead plays no note at 3.1 that could be changed"),
        (
            LEAD,
            bars(1, 3),
            (change("Cmaj7", 2),),
            "'Cmaj7' cannot stand for a single note at 1.3; write one as F#4",
        ),
        (LEAD, bars(1, 3), (change("E", 2),), "'E' is what lead plays at 1.3 already; name another, or rest"),
        (
            LEAD,
            bars(1, 3),
            (change("F", 2), change("G", 0, 4)),
            "two changes are of one note at bar 1; write one",
        ),
        (KEYS, bars(1, 2), (change("X", 0),), "'X' cannot stand for a chord at 1.1: "),
        (Play("scale", "D Dorian"), bars(1, 1), (), "'D Dorian' stands in no place of the song"),
    ],
)
def test_what_cannot_be_played_is_a_sentence(play: Play, span: Span, changes: tuple, sentence: str) -> None:
    with pytest.raises(ValueError) as found:
        tones_of(play, span, song(parts={"lead": TUNE, "keys": COMPING}), changes)
    assert str(found.value).startswith(sentence)

"""Chords beside a tune: out of its way. Common practice of accompanying."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.project.model import Play
from studio.theory.parts.close_voicing import LOWEST_RIGHT
from studio.timeline.heard import RATE
from studio.timeline.playing import tones_of
from tests.theory.charts import line
from tests.timeline.playing.songs import CHORDS, bars, song, struck_at

BEAT = RATE // 2
START = RATE // 2
LEAD = Play("part", "lead")
BASS = Play("part", "bass")


def hands(tune: str, chords: str, *beside: Play, bass: str = "") -> dict[int, list[int]]:
    """The keys of the chords at each beat."""
    parts = {"lead": line(tune), **({"bass": line(bass)} if bass else {})}
    facts = song(chords, parts)
    tones = struck_at(tones_of(CHORDS, bars(1, 2), facts, (), beside))
    return {(at - START) // BEAT: keys for at, keys in tones.items()}


def test_by_themselves_chords_lie_as_the_keyboard_shows_them() -> None:
    assert hands("E4:4 E4:4", "| C | F |") == {0: [48, 60, 64, 67], 4: [41, 60, 65, 69]}


def test_a_key_that_the_tune_strikes_at_that_moment_is_left_to_the_tune() -> None:
    # The tune has the G of C and the A of F; in the left hand nothing is left out.
    assert hands("G4:4 A4:4", "| C | F |", LEAD) == {0: [48, 60, 64], 4: [41, 60, 65]}


def test_a_key_that_the_tune_holds_or_comes_to_later_is_taken_an_octave_lower() -> None:
    assert hands("C5:2 G4:2 A4:4", "| C | F |", LEAD)[0] == [48, 55, 60, 64]


def test_the_hand_keeps_under_a_low_tune() -> None:
    # E4 in the tune: of C4 E4 G4 it leaves E to the tune and takes G below.
    assert hands("E4:4 F4:4", "| C | F |", LEAD) == {0: [48, 55, 60], 4: [41, 57, 60]}


def test_a_tune_that_is_lower_than_the_hand_goes_moves_nothing() -> None:
    assert hands("E3:4 F3:4", "| C | F |", LEAD) == {0: [48, 60, 64, 67], 4: [41, 60, 65, 69]}


def test_a_bass_part_is_no_tune_beside_one() -> None:
    alone = hands("G4:4 A4:4", "| C | F |", LEAD)
    assert hands("G4:4 A4:4", "| C | F |", LEAD, BASS, bass="C3:4 F2:4") == alone


def test_a_note_held_into_the_stretch_is_struck_where_it_starts() -> None:
    facts = song("| C | C |", {"lead": (Note(F(0), F(8), Pitch.parse("G4")),)})
    (keys,) = struck_at(tones_of(CHORDS, bars(2, 2), facts, (), (LEAD,))).values()
    assert keys == [48, 60, 64]


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(50, 84), min_size=8, max_size=8),
    st.lists(st.sampled_from(["C", "F#m7", "Bb", "E7/G#", "Am", "G13", "Dm7b5"]), min_size=2, max_size=2),
)
def test_no_key_is_struck_twice_and_no_tone_of_the_chord_is_lost(tune: list[int], symbols: list[str]) -> None:
    notes = tuple(Note(F(at), F(1), Pitch.from_midi(midi)) for at, midi in enumerate(tune))
    facts = song("| " + " | ".join(symbols) + " |", {"lead": notes})
    alone, beside = (struck_at(tones_of(CHORDS, bars(1, 2), facts, (), made)) for made in ((), (LEAD,)))
    for at, keys in beside.items():
        struck = tune[(at - START) // BEAT]
        bass, *hand = keys
        assert len(set(keys)) == len(keys) and bass == alone[at][0]
        assert struck not in hand
        assert all(midi >= LOWEST_RIGHT for midi in hand)
        assert {midi % 12 for midi in (*keys, struck)} >= {midi % 12 for midi in alone[at]}


@pytest.mark.parametrize("other", [Play("chords", "loop"), Play("part", "gone")])
def test_what_is_no_part_of_the_song_is_no_tune(other: Play) -> None:
    assert hands("G4:4 A4:4", "| C | F |", other) == hands("G4:4 A4:4", "| C | F |")

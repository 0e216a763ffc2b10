"""Voices through a row of chords."""

from fractions import Fraction
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from studio.music.chart import ChordAt
from studio.music.chord import Chord
from studio.theory.parts.voice_leading_core import core_notes
from studio.theory.parts.voice_leading_threads import close_position, threads
from tests.theory.charts import chart
from tests.theory.parts.test_voice_leading import chords

rows = st.lists(chords, min_size=1, max_size=6)


def charted(row: list[Chord]) -> list[ChordAt]:
    return [ChordAt(Fraction(4 * n), Fraction(4), chord) for n, chord in enumerate(row)]


def said(text: str) -> list[str]:
    return [" ".join(str(pitch) for pitch in thread.pitches) for thread in threads(chart(text).chords)]


def test_the_circle_of_fifths_falls_by_steps() -> None:
    """In a chain of sevenths thirds and sevenths fall by turns (common practice of jazz piano: guide tones)."""
    assert said("Dm7 G7 Cmaj7") == ["D4 F4 A4 C5", "D4 F4 G4 B4", "C4 E4 G4 B4"]


def test_a_chord_struck_again_goes_on_and_no_chord_is_passed_over() -> None:
    found = threads(chart("A A N.C. E").chords)
    assert [(str(thread.at.chord), thread.at.length) for thread in found] == [("A", 8), ("E", 4)]
    assert threads(()) == ()


@given(rows)
def test_every_chord_sounds_whole_and_every_voice_goes_on(row: list[Chord]) -> None:
    found = threads(charted(row))
    assert found[0].pitches == close_position(row[0])
    for thread in found:
        assert thread.at.chord is not None
        assert {pitch.name for pitch in thread.pitches} == set(core_notes(thread.at.chord))
        assert [p.midi for p in thread.pitches] == sorted({p.midi for p in thread.pitches})
    for one, two in pairwise(found):
        assert {move.start for move in one.moves} == set(one.pitches)
        assert {move.end.midi for move in one.moves} == {pitch.midi for pitch in two.pitches}
        assert one.leading is not None
        assert {(m.start.name, m.end.name, m.semitones) for m in one.moves} == {
            (m.start, m.end, m.semitones) for m in one.leading.moves
        }


@given(rows, st.integers(1, 6))
def test_transposition_changes_no_move(row: list[Chord], letters: int) -> None:
    semitones = (0, 2, 4, 5, 7, 9, 11)[letters]
    moved = [chord.transposed(letters, semitones) for chord in row]
    here, there = threads(charted(row)), threads(charted(moved))
    assert [[m.semitones for m in thread.moves] for thread in here] == [
        [m.semitones for m in thread.moves] for thread in there
    ]


@given(rows)
def test_no_voices_cross(row: list[Chord]) -> None:
    for thread in threads(charted(row)):
        ends = [move.end.midi for move in thread.moves]
        assert ends == sorted(ends)


def test_a_voice_steps_rather_than_crosses_one_that_is_held() -> None:
    *_, before, _ = threads(chart("Am7 Bm7 Cmaj7 B7").chords)
    assert {str(move.start.name) + str(move.end.name) for move in before.moves} == {"CB", "ED♯", "GF♯", "BA"}
    assert before.leading is not None and before.leading.total == 5


def test_an_altered_dominant_is_led_in_four_voices() -> None:
    """Guide tones, one altered ninth and one altered fifth (common practice of jazz piano)."""
    _, dominant, tonic = threads(chart("Dm7 G7alt Cmaj7").chords)
    assert {str(pitch.name) for pitch in dominant.pitches} == {"B", "F", "A♭", "E♭"}
    assert len(dominant.pitches) == len(tonic.pitches) == 4

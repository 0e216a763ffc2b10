"""The notes of a chord that are led."""

import pytest
from hypothesis import given

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.theory.parts.voice_leading_core import CORE, MOST, core_notes
from tests.theory.parts.test_voice_leading import chords


@pytest.mark.parametrize(
    ("symbol", "notes"),
    [
        ("C", "C E G"),
        ("G7", "G B D F"),
        ("Dm9", "D F A C E"),
        # rootless voicings of the thirteenth and the altered dominant, as jazz piano is taught (common practice)
        ("G13", "B F A E"),
        ("G7alt", "B F A♭ E♭"),
    ],
)
def test_what_hands_play(symbol: str, notes: str) -> None:
    assert " ".join(map(str, core_notes(read_chord(symbol)))) == notes


@given(chords)
def test_guide_tones_are_never_left_out_and_no_more_are_led_than_hands_hold(chord: Chord) -> None:
    kept, whole = core_notes(chord), chord.notes()
    assert len(kept) <= MOST and set(kept) <= set(whole)
    if len(whole) > MOST:
        assert len(kept) == CORE
        guides = [tone for tone in chord.tones if tone.number in (3, 7)]
        assert {chord.root.transposed(tone.letters, tone.semitones) for tone in guides} <= set(kept)

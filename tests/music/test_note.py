"""Notes: when they sound."""

from fractions import Fraction as F

import pytest

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span

NOTE = Note(F(1), F(2), Pitch.parse("C4"))


@pytest.mark.parametrize(
    ("quarters", "sounds"), [(F(7, 8), False), (F(1), True), (F(2), True), (F(3), False)]
)
def test_a_note_sounds_from_its_onset_up_to_its_end(quarters: F, sounds: bool) -> None:
    assert NOTE.sounds_at(quarters) is sounds


@pytest.mark.parametrize(
    ("start", "end", "sounds"), [(0, 1, False), (0, 2, True), (2, 9, True), (3, 4, False), (-4, 9, True)]
)
def test_a_note_sounds_in_each_span_that_it_reaches_into(start: int, end: int, sounds: bool) -> None:
    assert NOTE.sounds_in(Span(F(start), F(end))) is sounds

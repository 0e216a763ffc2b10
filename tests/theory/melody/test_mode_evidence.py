"""Weighing notes: how long each sounds in a span, and which only pass."""

from fractions import Fraction as F

import pytest

from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.melody.mode_evidence import gather
from tests.theory.charts import line


def test_shares_of_the_time() -> None:
    found = gather(line("A3:2 C4:1 E4:1"), NoteName("A"), None)
    assert {place: found.lengths[place] for place in found.sounding} == {0: 0.5, 3: 0.25, 7: 0.25}
    assert found.quarters == 4
    assert found.share([3, 7]) == 0.5


def test_notes_count_for_as_long_as_they_sound_in_the_span() -> None:
    found = gather(line("A3:4 C4:4 E4:4"), NoteName("A"), Span(F(3), F(7)))
    assert {place: found.lengths[place] for place in found.sounding} == {0: 0.25, 3: 0.75}


@pytest.mark.parametrize(
    ("notes", "passes"),
    [("D4:1/2 D#4:1/2 E4", True), ("D4 D#4 E4", True), ("D4 D#4:3/2 E4", False), ("D4 D#4 G4", False),
     ("D4 D#4 r:3/2 E4", False), ("D#4 E4 D#4 G4", False), ("D#4", False)],
)  # fmt: skip
def test_a_passing_note_is_short_and_goes_on_by_half_step(notes: str, passes: bool) -> None:
    found = gather(line(notes), NoteName("C"), None)
    assert found.passes(3, (0, 2, 4, 5, 7, 9, 11)) is passes


def test_it_passes_only_to_a_note_of_the_scale() -> None:
    found = gather(line("D4 D#4 E4"), NoteName("C"), None)
    assert not found.passes(3, (0, 2, 3, 5, 7))


def test_the_name_that_is_written_most() -> None:
    found = gather(line("C#4:3 Db4:1 E4"), NoteName("A"), None)
    assert str(found.written[4]) == "C♯"


def test_nothing() -> None:
    found = gather((), NoteName("A"), None)
    assert (found.sounding, found.quarters, sum(found.lengths)) == (frozenset(), 0, 0)

"""What a song has where something else is played: against the chart and the notes of the counted song."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from studio.handoff.written_there import written_there
from studio.music.place import Span
from studio.project.model import Instead, Play

from ..timeline.long_song import SONG

CHORDS, LEAD = Play("chords", "chords"), Play("part", "lead")


@pytest.mark.parametrize(
    ("play", "start", "end", "sound", "written"),
    [
        (CHORDS, 0, 4, "Dm", ("C",)),  # bar 1
        (CHORDS, 4, 8, "Dm", ("F", "G")),  # bar 2: | F . G . |
        (CHORDS, 5, 5, "rest", ("F",)),  # a moment: 2.2
        (CHORDS, 19, 25, "F", ("G", "C")),  # bars 7 and 8
        (LEAD, 4, 8, "B4", ("A4",)),  # A on the first beat of bar 2
        (LEAD, 4, 4, "B", ("A",)),
        (LEAD, 0, 8, "rest", ("C", "A")),
        (CHORDS, 100, 104, "G", ()),
    ],
)
def test_chords_and_notes_are_named_once_and_in_order(
    play: Play, start: int, end: int, sound: str, written: tuple[str, ...]
) -> None:
    assert written_there(SONG, play, Instead(Span(F(start), F(end)), sound)) == written

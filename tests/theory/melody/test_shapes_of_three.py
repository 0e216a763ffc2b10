"""Every shape of three notes against music21's ``voiceLeading.ThreeNoteLinearSegment``, a second opinion.

music21 10 says whether the middle note could be a passing or a neighbour tone, from the three pitches alone.
All that it calls so we call so, and we follow the ear where it asks for more of the spelling. Each difference
has one of these names:

- "respelled": we hear a neighbour where the line comes back to the same key of the piano under another name
  (D♭–C–C♯); music21 wants the same name;
- "augmented second": we take neighbouring letters for a step whatever lies between; music21 does so for
  passing tones, as we do, but not for neighbours;
- "whole step in a chromatic line": we let C–C♯–D♯ pass; music21 wants two half steps where a letter stays;
- "same letter throughout": we let C♭–C–C♯ pass; music21 does not;
- "step by sound": two half steps are a step to us however they are spelled (A♯–C); to music21 that is a third.
"""

from __future__ import annotations

import pytest

from studio.music.pitch import Pitch
from studio.theory.melody.degrees import read_melody
from tests.theory.charts import chart, line

MIDDLE = Pitch.parse("C5")
AROUND = [f"{letter}{sign}{octave}" for octave, letters in ((4, "GAB"), (5, "CDEF"))
          for letter in letters for sign in ("b", "", "#")]  # fmt: skip


def theirs(first: str, last: str) -> str:
    from music21.voiceLeading import ThreeNoteLinearSegment

    segment = ThreeNoteLinearSegment(*(name.replace("b", "-") for name in (first, str(MIDDLE), last)))
    if segment.couldBePassingTone():
        return "passing"
    return "neighbour" if segment.couldBeNeighborTone() else "other"


def ours(first: str, last: str) -> str:
    """Over E major, to which C does not belong."""
    found = read_melody(line(f"{first} {MIDDLE} {last}"), chart("E"))[1]
    return found.kind if found.kind in ("passing", "neighbour") else "other"


def difference(kind: str, first: Pitch, last: Pitch) -> str:
    """The name of the difference that such a shape has by the rules above; "" if it should have none."""
    if kind == "neighbour":
        if first != last:
            return "respelled"
        return "augmented second" if abs(first.midi - MIDDLE.midi) > 2 else ""
    letters = [abs(one.height - MIDDLE.height) for one in (first, last)]
    if any(distance > 1 for distance in letters):
        return "step by sound"
    if letters == [0, 0]:
        return "same letter throughout"
    whole = any(abs(one.midi - MIDDLE.midi) != 1 for one in (first, last))
    return "whole step in a chromatic line" if 0 in letters and whole else ""


@pytest.mark.parametrize("first", AROUND)
def test_all_shapes(first: str) -> None:
    for last in AROUND:
        kind, other = ours(first, last), theirs(first, last)
        named = difference(kind, Pitch.parse(first), Pitch.parse(last)) if kind != "other" else ""
        assert (kind != other) == bool(named), (first, last, kind, other, named)

"""Steps and leaps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.music.pitch import NoteName, Pitch
from studio.theory.melody.motion import came_from, move

pitches = st.builds(
    Pitch, st.builds(NoteName, st.sampled_from("ABCDEFG"), st.integers(-1, 1)), st.integers(3, 5)
)


@pytest.mark.parametrize(
    ("start", "end", "kind", "direction", "half_step"),
    [
        ("C4", "D4", "step", "up", False), ("C4", "B3", "step", "down", True), ("G4", "G#4", "step", "up", True),
        ("G#4", "Bb4", "step", "up", False), ("Ab4", "B4", "step", "up", False), ("C4", "E4", "leap", "up", False),
        ("E4", "C4", "leap", "down", False), ("C4", "C4", "repeated", "", False), ("B#3", "C4", "repeated", "", False),
    ],
)  # fmt: skip
def test_moves(start: str, end: str, kind: str, direction: str, half_step: bool) -> None:
    found = move(Pitch.parse(start), Pitch.parse(end))
    assert (found.kind, found.direction, found.half_step) == (kind, direction, half_step)


def test_no_note_no_move() -> None:
    assert move(None, Pitch.parse("C4")).kind == move(Pitch.parse("C4"), None).kind == "none"


@given(pitches, pitches)
def test_both_ends_tell_the_same_move(start: Pitch, end: Pitch) -> None:
    left, reached = move(start, end), came_from(start, end)
    assert (left.kind, left.direction, left.semitones) == (reached.kind, reached.direction, reached.semitones)
    assert (left.pitch, reached.pitch) == (end, start)
    back = move(end, start)
    assert (back.kind, back.semitones, back.letters) == (left.kind, -left.semitones, -left.letters)


@given(pitches, pitches)
def test_size_agrees_with_music21(start: Pitch, end: Pitch) -> None:
    from music21 import interval, pitch

    theirs = interval.Interval(
        *(pitch.Pitch(str(one).replace("♭", "-").replace("♯", "#")) for one in (start, end))
    )
    ours = move(start, end)
    assert ours.semitones == theirs.semitones
    if ours.semitones:
        assert abs(ours.letters) + 1 == theirs.generic.undirected

"""The report of how much of the recording an episode takes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from studio.project.model import Excerpt, Play

from ..timeline.long_song import excerpt_of, sound
from .told import told

CHORDS = Play("chords", "chords", "sustained")

# The recording lasts 30 s. Bar 1 takes 2 s of it, bars 1 and 2 take 4.25 s.

ONE, BOTH = excerpt_of(F(0), F(4)), excerpt_of(F(0), F(8))


@pytest.mark.parametrize(
    ("excerpts", "played", "heard", "longest", "different"),
    [
        ((ONE,), 2, 2, 2, 2),
        ((ONE, BOTH), 6.25, 6.25, 4.25, 4.25),
        ((replace(ONE, repeat=3),), 6, 6, 6, 2),
        ((replace(ONE, repeat=2, speed=F(1, 2)), BOTH), 8.25, 12.25, 8, 4.25),
    ],
)
def test_repeats_count_and_what_is_slowed_sounds_longer(
    excerpts: tuple[Excerpt, ...], played: float, heard: float, longest: float, different: float
) -> None:
    used = told(*excerpts)["used"]
    assert (used["played_s"], used["heard_s"], used["longest_excerpt_s"]) == (played, heard, longest)
    assert used["different_parts_of_the_recording_s"] == different
    assert used["share_of_recording_percent"] == pytest.approx(100 * different / 30, abs=0.005)
    assert used["excerpts"] == len(excerpts)


def test_a_tail_is_taken_too_and_a_count_in_is_not() -> None:
    used = told(excerpt_of(F(0), F(4), F(-4), F(2)))["used"]
    assert used["played_s"] == used["heard_s"] == used["longest_excerpt_s"] == 3


def test_what_the_program_plays_is_no_use_of_the_recording() -> None:
    used = told(ONE, excerpt_of(F(0), F(8), sources=(), plays=(CHORDS,)))["used"]
    assert (used["excerpts"], used["played_s"], used["longest_excerpt_s"]) == (1, 2, 2)
    assert (used["played_examples"], used["played_examples_s"]) == (1, 4.25)


def test_a_stem_with_something_played_over_it_is_one() -> None:
    both = excerpt_of(F(0), F(4), names=("drums",), sources=(sound("drums.wav"),), plays=(CHORDS,))
    used = told(both)["used"]
    assert (used["excerpts"], used["played_s"], used["played_examples"]) == (1, 2, 0)

"""A belief and an answer are the same when a musician would say so, however they are written."""

from __future__ import annotations

import pytest

from studio.timeline.answers.belief import judge
from studio.timeline.answers.said import Said


@pytest.mark.parametrize(
    ("expected", "answer"),
    [
        ("I V vi IV", "I–V–vi–IV"),
        ("I - V - vi - IV", "I–V–vi–IV"),
        ("bVI, bVII, I", "♭VI–♭VII–I"),
        ("b6", "♭6"),
        ("#11", "♯11"),
        ("C-7", "Cm7"),
        ("Bbmaj7", "B♭maj7"),
        ("CM7", "Cmaj7"),
        ("BbM7, F", "B♭maj7–F"),
        ("f# minor", "F♯ minor"),
        ("dorian", "Dorian"),
        ("4-3 suspension", "4–3 suspension"),
        ("a passing tone", "passing tone"),
        ("A", "A"),
    ],
)
def test_two_ways_to_write_one_thing_agree(expected: str, answer: str) -> None:
    assert judge(expected, Said(answer)) == "agrees"


@pytest.mark.parametrize(
    ("expected", "answer"),
    [
        ("I–V–VI–IV", "I–V–vi–IV"),
        ("iv", "IV"),
        ("b6", "6"),
        ("Am", "A"),
        ("CM7", "Cm7"),
        ("AM", "Am"),
        ("CM7 F", "Cm7–F"),
        ("A minor", "A major"),
        ("Dorian", "Aeolian"),
        ("A", "G"),
        ("I V vi", "I–V–vi–IV"),
        ("b", "♭"),
    ],
)
def test_two_things_do_not(expected: str, answer: str) -> None:
    assert judge(expected, Said(answer)) == "disagrees"


def test_what_the_music_allows_is_open() -> None:
    said = Said("Aeolian or Dorian", possible=("Aeolian", "Dorian"))
    assert judge("Dorian", said) == "open"
    assert judge("Phrygian", said) == "disagrees"
    assert judge("♭VI", Said("♭6", runner_up="♭VI")) == "open"


@pytest.mark.parametrize(
    ("expected", "answer", "verdict"),
    [
        ("authentic", "perfect authentic cadence", "agrees"),
        ("falling thirds", "chain of falling thirds, 4 chords", "agrees"),
        ("backbeat on 2", "backbeat on 2, eighth-note hats", "agrees"),
        ("perfect", "imperfect authentic cadence", "disagrees"),
        ("authentic perfect", "perfect authentic cadence", "disagrees"),
    ],
)
def test_some_words_of_a_phrase_will_do(expected: str, answer: str, verdict: str) -> None:
    assert judge(expected, Said(answer), phrase=True) == verdict
    assert judge(expected, Said(answer)) == "disagrees"


def test_another_name_of_the_answer_agrees() -> None:
    assert judge("♭13", Said("♭6", also=("♭13",))) == "agrees"


def test_no_belief_is_no_verdict() -> None:
    assert judge("", Said("♭6")) == ""

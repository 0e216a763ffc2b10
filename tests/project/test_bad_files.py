"""Every mistake that a person can make in a project file: one plain sentence at its line and column, and no more.

Each case changes the good file in one place and names all that is then complained of.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.project.conftest import GOOD
from tests.project.mistakes import OF_THE_SONG
from tests.project.mistakes_of_segments import OF_SEGMENTS


@pytest.mark.parametrize(("right", "wrong", "expected"), [*OF_THE_SONG, *OF_SEGMENTS])
def test_one_mistake_one_sentence(
    complaints: Callable[..., list[str]], right: str, wrong: str, expected: list[str]
) -> None:
    assert GOOD.count(right) >= 1
    said = complaints(GOOD.replace(right, wrong, 1))
    assert len(said) == len(expected), said
    for sentence, start in zip(said, expected, strict=True):
        assert sentence.startswith(start), said
        assert (
            "pydantic" not in sentence
            and "Input should" not in sentence
            and "Error" not in sentence.split("(")[0]
        )


def test_all_mistakes_are_told_together(complaints: Callable[..., list[str]]) -> None:
    """A mistyped key, a missing file, a place past the song's end and an unknown chord, in one run."""
    text = GOOD
    for right, wrong in (
        ("loudness", "loudnes"),
        ("audio/bass.flac", "audio/bas.flac"),
        ("labels: degrees}", "labels: degrees, where: 1}"),
        ("where: verse bars 1-2", "where: 20-21"),
        ("Dadd9", "Dadd99"),
    ):
        text = text.replace(right, wrong, 1)
    said = complaints(text)
    assert [sentence.split(": ")[0] for sentence in said] == ["4:3", "16:59", "19:40", "39:22", "42:64"]
    assert "did you mean 'loudness'?" in said[0]
    assert "did you mean 'audio/bass.flac'?" in said[2]
    assert "past the end of the song, whose last bar is 16" in said[3]
    assert "'where' is written twice" in said[4]


@pytest.mark.parametrize(
    ("right", "wrong", "expected"),
    [
        # Stems that are wrong as a whole are no reason to complain of each name that is used.
        ("stems: {keys: audio/keys.flac, bass: audio/bass.flac}", "stems: audio/keys.flac", ["19:10"]),
        ("sections: {intro: 1-4, verse: 5-12, bridge: 13-16}", "sections: verse", ["13:13"]),
        ("canvas: 1920x1080 @ 30", "canvas: large", ["3:11"]),
        ("parts:\n    lead: |", "partz:\n    lead: |", ["20:3"]),
        ("facts:\n", "fact:\n", ["28:1"]),
        ("tempo: 120", "tempo: brisk", ["12:10"]),
        ("meter: {1: 4/4,", "meter: {1: 4/5,", ["11:14"]),
    ],
)
def test_a_mistake_draws_no_others_after_it(
    complaints: Callable[..., list[str]], right: str, wrong: str, expected: list[str]
) -> None:
    text = GOOD.replace("at: 0:20", "at: 00:00:20:00").replace(right, wrong, 1)
    assert text.count(wrong) >= 1
    assert [sentence.split(": ")[0] for sentence in complaints(text)] == expected


def test_files_outside_the_folder_can_be_allowed(complaints: Callable[..., list[str]]) -> None:
    text = GOOD.replace("audio/mix.flac", "audio/../../elsewhere/mix.flac")
    assert "leads out of the project's folder" in complaints(text)[0]
    assert "no file" in complaints(text, allow_outside=True)[0]


def test_a_key_with_nothing_after_it_counts_as_not_written(complaints: Callable[..., list[str]]) -> None:
    text = GOOD.replace("    at: 0:00\n", "    at:\n").replace("  by: Nobody\n", "  by:\n")
    assert complaints(text) == []

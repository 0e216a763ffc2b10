"""Small numbers as people write them in words."""

from __future__ import annotations

import pytest

from studio.project.number_words import number_meant, times_in_words


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("two", 2),
        ("Twice", 2),
        ("three times", 3),
        ("2x", 2),
        ("2 times", 2),
        ("second", 2),
        ("eight", 8),
        ("nine", None),
        ("x", None),
        ("", None),
        ("0x", None),
        ("٢", None),
    ],
)
def test_the_number_that_is_meant(text: str, number: int | None) -> None:
    assert number_meant(text) == number


def test_how_often() -> None:
    assert [times_in_words(count) for count in (1, 2, 3, 8, 16)] == [
        "once",
        "twice",
        "three times",
        "eight times",
        "16 times",
    ]

"""Canvas and loudness."""

from __future__ import annotations

from fractions import Fraction

import pytest

from studio.project.complaints import MisfitError
from studio.project.episode_values import read_canvas, read_loudness


@pytest.mark.parametrize(
    ("text", "width", "height", "rate"),
    [
        ("1920x1080 @ 30", 1920, 1080, Fraction(30)),
        ("1080x1920 @ 25", 1080, 1920, Fraction(25)),
        ("1080×1080@60", 1080, 1080, Fraction(60)),
        # 29.97 and 23.976 stand for thousandths of 1001: SMPTE ST 12-1.
        ("1920x1080 @ 29.97", 1920, 1080, Fraction(30000, 1001)),
        ("1920x1080 @ 23.976", 1920, 1080, Fraction(24000, 1001)),
        ("1920x1080", 1920, 1080, Fraction(30)),
    ],
)
def test_a_canvas(text: str, width: int, height: int, rate: Fraction) -> None:
    canvas = read_canvas(text)
    assert (canvas.width, canvas.height, canvas.rate, canvas.text) == (width, height, rate, text)


@pytest.mark.parametrize(
    ("text", "phrase"),
    [
        ("1080p", "width x height"),
        ("1920x1080 @ 31", "not a rate"),
        ("1921x1080", "odd number"),
        ("100x100", "out of range"),
        ("9000x1080", "out of range"),
    ],
)
def test_what_is_no_canvas(text: str, phrase: str) -> None:
    with pytest.raises(MisfitError, match=phrase):
        read_canvas(text)


def test_loudness() -> None:
    assert read_loudness("-14 LUFS") == -14.0
    assert read_loudness("−23.5 lufs") == -23.5
    for text in ("-14", "14 LUFS", "-14 dB", "loud", "-3 LUFS", "-70 LUFS"):
        with pytest.raises(MisfitError):
            read_loudness(text)

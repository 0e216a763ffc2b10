"""Riffs of power chords. That they are heard on the root to which they return is common practice."""

import pytest

from studio.theory.harmony.key_riffs import riff_root
from studio.theory.harmony.keys import infer_keys
from tests.theory.charts import chart


@pytest.mark.parametrize(
    ("bars", "root"),
    [
        ("E5 . F5 . | E5 . G5 F5", 4),
        ("C5 Ab5 Bb5 C5", 0),
        ("E5 | E5 | G5 | A5", None),  # does not come back
        ("E5 | G5 | G5 | E5 . G5 .", None),  # is not the longest
        ("E5 | F | E5", None),  # a chord with its third
        ("N.C.", None),
    ],
)
def test_the_root_of_a_riff(bars: str, root: int | None) -> None:
    assert riff_root([at for at in chart(bars).chords if at.chord is not None]) == root


@pytest.mark.parametrize(
    ("bars", "key"),
    [
        ("E5 . F5 . | E5 . G5 F5 | E5 . F5 . | Bb5 . A5 . | E5 . F5 . | E5 . G5 F5 | C5 | B5", "E minor"),
        ("C#5 | D5 . E5 . | C#5 | D5 . B5 . | C#5 | D5 . E5 . | F#5 . E5 . | D5", "C♯ minor"),
        ("D5 | D5 | D5 | Eb5 | D5 | D5 | F5 . Eb5 . | D5", "D minor"),
    ],
)
def test_riffs_are_in_one_key(bars: str, key: str) -> None:
    (found,) = infer_keys(chart(bars))
    assert str(found.key) == key
    assert found.sureness > 0.5


def test_one_four_and_five_without_thirds_may_be_major_or_minor() -> None:
    (found,) = infer_keys(chart("A5 D5 E5 D5 A5 D5 E5 D5"))
    assert {str(found.key), str(found.runner_up)} == {"A major", "A minor"}
    assert found.sureness < 0.5

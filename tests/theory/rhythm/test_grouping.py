"""Odd meters by the groups that their strokes show; common practice."""

import pytest

from studio.theory.rhythm.grouping import grouping_of
from tests.theory.rhythm.grooves import groove


@pytest.mark.parametrize(
    ("meter", "kick", "snare", "groups"),
    [
        ("7/8", "x...x..", "..x...x", (2, 2, 3)),
        ("7/8", "x..x.x.", ".......", (3, 2, 2)),
        ("7/8", "x.x..x.", ".......", (2, 3, 2)),
        ("5/4", "x..x.", "..x.x", (3, 2)),
        ("5/4", "x.x..", "...x.", (2, 3)),
        ("7/8", "x......", "...x...", ()),
        ("7/8", "xxxxxxx", ".......", ()),
        ("3/4", "x..", ".xx", ()),
        ("4/4", "x.x.", ".x.x", ()),
        ("9/8", "x........", "...x.....", ()),
    ],
)
def test_twos_and_threes(meter: str, kick: str, snare: str, groups: tuple[int, ...]) -> None:
    assert grouping_of(groove(meter, kick=kick, snare=snare)) == groups

"""What keeps time; note values are common practice."""

from fractions import Fraction as F

import pytest

from studio.theory.rhythm.timekeeping import timekeeper
from tests.theory.rhythm.grooves import groove


@pytest.mark.parametrize(
    ("meter", "hat", "value", "swung"),
    [
        ("4/4", "xxxx", "quarters", False),
        ("4/4", "x.x.", "halves", False),
        ("4/4", "xxxxxxxx", "eighths", False),
        ("4/4", ".x.x.x.x", "off-beats", False),
        ("4/4", "xxxx xxxx xxxx xxxx", "sixteenths", False),
        ("4/4", "xxx xxx xxx xxx", "triplets", False),
        ("4/4", "x.x x.x x.x x.x", "eighths", True),
        ("4/4", "| x.xx.x x.xx.x x.xx.x x.xx.x |", "sixteenths", True),
        ("4/4", "x.x. x.xx x.x. x.x.", "eighths", False),
        ("4/4", "x.xx x.xx x.xx x.xx", "sixteenths", False),
        ("6/8", "xxxxxx", "eighths", False),
        ("6/8", "x..x..", "dotted quarters", False),
        ("6/8", "xxxxxxxxxxxx", "sixteenths", False),
        ("2/2", "xxxx", "quarters", False),
        ("3/4", "xxxxxx", "eighths", False),
        ("7/8", "x.x.x.x", "quarters", False),
        ("7/8", "xxxxxxx", "eighths", False),
    ],
)
def test_values(meter: str, hat: str, value: str, swung: bool) -> None:
    found = timekeeper(groove(meter, hat=hat))
    assert found is not None and (found.value, found.swung) == (value, swung)


def test_open_and_closed_hats_are_one_line() -> None:
    found = timekeeper(groove(hat="xxxxxxx.", open_hat=".......x"))
    assert found is not None and found.filled == 1 and found.opens == (F(7, 8),) and found.family == "hats"


def test_the_hands_come_before_the_foot() -> None:
    both = timekeeper(groove(ride="x.x.", pedal_hat="xxxx"))
    assert both is not None and both.family == "ride"
    foot = timekeeper(groove(kick="x...", pedal_hat=".x.x"))
    assert foot is not None and foot.family == "pedal hat"
    assert timekeeper(groove(kick="xxxx", snare=".x.x")) is None


def test_gaps_that_belong_to_the_pattern() -> None:
    broken, whole = timekeeper(groove(hat="X.xx X.xx X.xx X...")), timekeeper(groove(hat="xxxxxxx."))
    assert broken is not None and broken.broken and whole is not None and not whole.broken


def test_quarters_in_an_odd_number_of_eighths_are_not_broken() -> None:
    """1, 3, 5 and 7 of seven eighths are all the quarters that there are."""
    found = timekeeper(groove("7/8", hat="x.x.x.x"))
    assert found is not None and not found.broken

"""Swing measured from timings that are made with a known ratio."""

import random

import pytest

from studio.theory.rhythm.swing import measure_swing


def eighths(ratio: float, beats: int = 16, scatter: float = 0.0) -> list[float]:
    chance = random.Random(7)
    late = ratio / (1 + ratio)
    return [beat + part + chance.uniform(-scatter, scatter) for beat in range(beats) for part in (0.0, late)]


@pytest.mark.parametrize(
    ("ratio", "name"),
    [
        (1.0, "straight"), (1.15, "straight"), (1.4, "light swing"), (2.0, "triplet swing"), (2.3, "triplet swing"),
        (3.0, "hard swing"),
    ],
)  # fmt: skip
def test_ratio_of_eighths(ratio: float, name: str) -> None:
    """2 to 1 is the last triplet, 3 to 1 dotted (Friberg and Sundström 2002, from memory)."""
    found = measure_swing(eighths(ratio))
    assert found is not None and found.level == "eighths" and found.count == 16
    assert found.ratio == pytest.approx(ratio, abs=0.001) and found.name == name and found.spread == 0


def test_human_timing_widens_the_spread_and_leaves_the_ratio() -> None:
    found = measure_swing(eighths(2.0, beats=200, scatter=0.03))
    assert found is not None and found.ratio == pytest.approx(2.0, abs=0.1) and 0.05 < found.spread < 0.3
    assert found.sureness < 0.95


def test_sixteenths_swing_between_straight_eighths() -> None:
    late = 2 / 3 / 2
    strokes = [beat + part for beat in range(8) for part in (0, late, 0.5, 0.5 + late)]
    found = measure_swing(strokes)
    assert found is not None and (found.level, found.count) == ("sixteenths", 16)
    assert found.ratio == pytest.approx(2.0, abs=0.001)


def test_straight_sixteenths_are_straight() -> None:
    found = measure_swing([step / 4 for step in range(32)])
    assert found is not None and found.level == "sixteenths" and found.straight


@pytest.mark.parametrize(
    "strokes", [[], [0.0, 1.0, 2.0, 3.0], [0.5, 1.5, 2.5], [step / 3 for step in range(24)]]
)
def test_what_tells_nothing(strokes: list[float]) -> None:
    assert measure_swing(strokes) is None

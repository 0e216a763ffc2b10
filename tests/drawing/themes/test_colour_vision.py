from __future__ import annotations

import pytest
from coloraide import Color

from studio.drawing.themes.colour_vision import EYES, apart

Lab = tuple[float, float, float]

# Sharma, Wu and Dalal, "The CIEDE2000 Color-Difference Formula: Implementation Notes, Supplementary Test Data, and
# Mathematical Observations" (Color Research and Application 30, 2005), from table 1: L*, a*, b* of two colours and
# their difference. These are the pairs on which a wrong hue angle, mean hue or rotation term shows.
SHARMA: list[tuple[Lab, Lab, float]] = [
    ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
    ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
    ((50, 2.8361, -74.0200), (50, 0, -82.7485), 3.4412),
    ((50, -1.3802, -84.2814), (50, 0, -82.7485), 1.0000),
    ((50, 0, 0), (50, -1, 2), 2.3669),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0009), 7.1792),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0011), 7.2195),
    ((50, -0.0010, 2.4900), (50, 0.0009, -2.4900), 4.8045),
    ((50, -0.0010, 2.4900), (50, 0.0011, -2.4900), 4.7461),
    ((50, 2.5, 0), (50, 0, -2.5), 4.3065),
    ((50, 2.5, 0), (73, 25, -18), 27.1492),
    ((50, 2.5, 0), (61, -5, 29), 22.8977),
    ((50, 2.5, 0), (56, -27, -3), 31.9030),
    ((50, 2.5, 0), (58, 24, 15), 19.4535),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((22.7233, 20.0904, -46.6940), (23.0331, 14.9730, -42.5619), 2.0373),
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
]

# Machado, Oliveira and Fernandes (2009), the authors' table of matrices for linear RGB at severity 1.0.
MACHADO = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


@pytest.mark.parametrize(("one", "other", "difference"), SHARMA)
def test_the_difference_that_themes_are_judged_by_is_ciede2000(
    one: Lab, other: Lab, difference: float
) -> None:
    first, second = Color("lab-d65", one), Color("lab-d65", other)
    assert first.delta_e(second, method="2000") == pytest.approx(difference, abs=5e-5)


@pytest.mark.parametrize("eyes", MACHADO)
def test_eyes_see_what_the_published_matrices_say(eyes: str) -> None:
    colour, black = (200, 120, 60), (0, 0, 0)
    linear = Color("srgb", [part / 255 for part in colour]).convert("srgb-linear").coords()
    seen = [sum(w * part for w, part in zip(row, linear, strict=True)) for row in MACHADO[eyes]]
    wanted = Color("srgb-linear", seen).convert("srgb").clip().delta_e(Color("black"), method="2000")
    assert apart(colour, black, eyes) == pytest.approx(wanted, abs=0.01)


def test_who_is_blind_to_red_or_green_takes_them_for_each_other() -> None:
    red, green = (150, 110, 20), (110, 130, 30)
    assert apart(red, green) > 18
    assert apart(red, green, "deutan") < 3
    assert apart(red, green, "tritan") > 25


@pytest.mark.parametrize("eyes", EYES)
def test_a_colour_does_not_differ_from_itself_and_black_and_white_always_do(eyes: str) -> None:
    assert apart((90, 140, 20), (90, 140, 20), eyes) == 0
    assert apart((0, 0, 0), (255, 255, 255), eyes) == pytest.approx(100, abs=0.1)

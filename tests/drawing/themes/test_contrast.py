from __future__ import annotations

import pytest

from studio.drawing.themes.contrast import contrast, luminance, over

WHITE, BLACK = (255, 255, 255), (0, 0, 0)


def test_black_on_white_is_21_to_1() -> None:
    # WCAG 2.2, "contrast ratio": ratios run from 1 to 21.
    assert contrast(BLACK, WHITE) == pytest.approx(21)
    assert contrast(WHITE, BLACK) == pytest.approx(21)


@pytest.mark.parametrize(
    ("one", "other", "ratio", "rounded"),
    [
        # W3C, Understanding WCAG 2.2, 1.4.11 Non-text Contrast: ratios that its figures state, to one decimal that
        # is now rounded and now cut off.
        ("949494", "ffffff", 3.0, 0.1),
        ("e5e5e5", "6221ea", 5.6, 0.1),
        ("fff000", "ffffff", 1.2, 0.1),
        # W3C, ACT rule afw4f7 "Text has minimum contrast": passed example 1.
        ("333333", "ffffff", 12.6, 0.05),
        # W3C, issue "Rounding and color contrast" of the WCAG working group: the grey that must not pass 4.5.
        ("777777", "ffffff", 4.48, 0.005),
    ],
)
def test_the_ratios_that_w3c_states(one: str, other: str, ratio: float, rounded: float) -> None:
    first, second = tuple(bytes.fromhex(one)), tuple(bytes.fromhex(other))
    assert contrast(first, second) == pytest.approx(ratio, abs=rounded)  # type: ignore[arg-type]


def test_luminance_of_the_primaries_is_their_weight() -> None:
    # WCAG 2.2, "relative luminance", and BT.709: 0.2126, 0.7152, 0.0722.
    assert luminance((255, 0, 0)) == pytest.approx(0.2126)
    assert luminance((0, 255, 0)) == pytest.approx(0.7152)
    assert luminance((0, 0, 255)) == pytest.approx(0.0722)


def test_over_is_what_lies_between() -> None:
    assert over((10, 20, 30), 1.0, WHITE) == (10, 20, 30)
    assert over((10, 20, 30), 0.0, WHITE) == WHITE
    assert over(BLACK, 0.5, (200, 100, 0)) == (100, 50, 0)

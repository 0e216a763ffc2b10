from __future__ import annotations

import pytest

from studio.drawing.themes.contrast import contrast, luminance, over

WHITE, BLACK = (255, 255, 255), (0, 0, 0)


def test_black_on_white_is_21_to_1() -> None:
    # WCAG 2.2, "contrast ratio": ratios run from 1 to 21.
    assert contrast(BLACK, WHITE) == pytest.approx(21)
    assert contrast(WHITE, BLACK) == pytest.approx(21)


@pytest.mark.parametrize(
    ("grey", "ratio"),
    [((0x77, 0x77, 0x77), 4.48), ((0x76, 0x76, 0x76), 4.54), ((0x94, 0x94, 0x94), 3.03)],
)
def test_the_greys_on_either_side_of_the_limits(grey: tuple[int, int, int], ratio: float) -> None:
    # Worked values as WebAIM's contrast checker gives them on white (from memory): #777 just fails 4.5, #767676
    # just passes.
    assert contrast(grey, WHITE) == pytest.approx(ratio, abs=0.01)


def test_luminance_of_the_primaries_is_their_weight() -> None:
    # WCAG 2.2, "relative luminance", and BT.709: 0.2126, 0.7152, 0.0722.
    assert luminance((255, 0, 0)) == pytest.approx(0.2126)
    assert luminance((0, 255, 0)) == pytest.approx(0.7152)
    assert luminance((0, 0, 255)) == pytest.approx(0.0722)


def test_over_is_what_lies_between() -> None:
    assert over((10, 20, 30), 1.0, WHITE) == (10, 20, 30)
    assert over((10, 20, 30), 0.0, WHITE) == WHITE
    assert over(BLACK, 0.5, (200, 100, 0)) == (100, 50, 0)

"""Flashes counted in pictures made from the definition: WCAG 2.2, "general flash and red flash thresholds".

The numbers beside each check are the definition's: 10 % of relative luminance, the darker image below 0.80, a quarter
of 341 by 256 pixels, three in any one second, R/(R+G+B) ≥ 0.8 and 0.2 in u'v'.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.render.flash_counter import FlashCounter, Worst, worst

RATE = Fraction(24)
WHITE, BLACK = (1.0, 1.0, 1.0), (0.0, 0.0, 0.0)
Rgb = tuple[float, float, float]


def grey(level: float) -> Rgb:
    return level, level, level


def square(colour: Rgb, area: int, ground: Rgb = BLACK) -> np.ndarray:
    """A field of 341 by 256 pixels, of which the first `area` have a colour."""
    field = np.full((256 * 341, 3), ground, np.float32)
    field[:area] = colour
    return field.reshape(256, 341, 3)


def counted(one: np.ndarray, other: np.ndarray, changes: int = 20, every: int = 3) -> tuple[int, int]:
    """General and red flashes in the worst second when two pictures take turns."""
    counter = FlashCounter(RATE)
    for n in range(changes + 1):
        counter.see(n * every, (one, other)[n % 2])
    return counter.general().count, counter.red().count


ALL = 341 * 256
QUARTER = ALL // 4  # 21,824 pixels


def test_three_flashes_in_a_second_pass_and_four_do_not() -> None:
    # 24 frames a second: a change each 4 frames is 3 flashes a second, each 3 frames is 4.
    assert counted(square(BLACK, ALL), square(WHITE, ALL), every=4)[0] == 3
    assert counted(square(BLACK, ALL), square(WHITE, ALL), every=3)[0] == 4


def test_a_flash_is_two_changes() -> None:
    for changes in range(9):
        assert counted(square(BLACK, ALL), square(WHITE, ALL), changes, every=2)[0] == changes // 2


def test_any_one_second_counts_wherever_it_begins() -> None:
    counter = FlashCounter(RATE)
    for n in range(9):
        counter.see(17 + 3 * n, square((BLACK, WHITE)[n % 2], ALL))
    assert counter.general() == Worst(4, 20)


@pytest.mark.parametrize(("area", "flashes"), [(QUARTER, 0), (QUARTER + 1, 4)])
def test_a_quarter_of_a_field_passes_and_more_does_not(area: int, flashes: int) -> None:
    assert counted(square(BLACK, ALL), square(WHITE, area))[0] == flashes


@pytest.mark.slow
def test_the_field_may_be_anywhere_and_is_no_larger() -> None:
    for x, y in ((0, 0), (1024 - 160, 576 - 150), (333, 201)):
        lit = np.zeros((576, 1024, 3), np.float32)
        lit[y : y + 150, x : x + 160] = 1
        assert counted(np.zeros_like(lit), lit, 8)[0] == 4
    apart = np.zeros((576, 1024, 3), np.float32)
    apart[:100, :160] = apart[-100:, -160:] = 1  # 32,000 pixels, of which no field holds more than 16,000
    assert counted(np.zeros_like(apart), apart, 8)[0] == 0


@pytest.mark.parametrize(
    ("dark", "bright", "flashes"),
    [
        (0.30, 0.39, 0),  # 9 %
        (0.30, 0.40, 4),  # 10 %
        (0.79, 0.90, 4),  # the darker just below 0.80
        (0.80, 0.95, 0),  # and not below it
        (0.0, 0.0999, 0),
    ],
)
def test_what_is_a_change(dark: float, bright: float, flashes: int) -> None:
    assert counted(square(grey(dark), ALL), square(grey(bright), ALL))[0] == flashes


def test_relative_luminance_is_what_counts() -> None:
    # WCAG 2.2, relative luminance: 0.2126 R + 0.7152 G + 0.0722 B. Full blue is less than 10 %, full green is not.
    assert counted(square(BLACK, ALL), square((0, 0, 1), ALL))[0] == 0
    assert counted(square(BLACK, ALL), square((0, 1, 0), ALL))[0] == 4


def test_a_change_may_take_several_frames_and_is_one() -> None:
    levels = [0.0, 0.05, 0.09, 0.3, 0.6, 0.9, 0.8, 0.5, 0.2, 0.05]  # one flash in ten frames
    counter = FlashCounter(Fraction(60))
    for n in range(120):
        counter.see(n, square(grey(levels[n % 10]), ALL))
    assert counter.general().count == 6


def test_slow_changes_and_noise_are_no_flashes() -> None:
    counter, random = FlashCounter(RATE), np.random.default_rng(5)
    for n in range(96):
        counter.see(
            n, square(grey(n / 96), ALL) + random.random((256, 341, 1), np.float32) * np.float32(0.09)
        )
    assert counter.general().count == 0


def test_light_that_changes_places_is_one_change() -> None:
    left, right = (np.zeros((256, 341, 3), np.float32) for _ in range(2))
    left[:, :170], right[:, 171:] = 1, 1
    assert counted(left, right, every=3)[0] == 4


def test_edges_that_change_a_little_later_belong_to_the_same_change() -> None:
    half = QUARTER // 2 + 1
    counter, one = FlashCounter(RATE), np.zeros((256, 341, 3), np.float32)
    for n in range(96):
        lit = n % 6 < 3
        one.reshape(-1, 3)[:half] = lit
        one.reshape(-1, 3)[half : 2 * half] = (n - 1) % 6 < 3 if n else 0
        counter.see(n, one.copy())
    assert counter.general().count == 4


RED = (1.0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("one", "other", "flashes"),
    [
        (RED, BLACK, 4),
        (RED, grey(0.2126), 4),  # of one luminance: no general flash, and a red one
        (RED, (0.9, 0.1, 0.0), 0),  # both red, and near each other
        ((0.80, 0.10, 0.10), (0.0, 0.0, 0.3), 4),  # R/(R+G+B) is 0.8
        ((0.79, 0.11, 0.10), (0.0, 0.0, 0.3), 0),  # and 0.79
        ((0.80, 0.10, 0.10), grey(0.25), 0),  # 0.15 apart in u'v'
        ((0.0, 0.0, 1.0), (0.0, 0.3, 0.0), 0),
    ],
)
def test_red_flashes(one: Rgb, other: Rgb, flashes: int) -> None:
    assert counted(square(one, ALL), square(other, ALL))[1] == flashes


def test_red_needs_its_area_too() -> None:
    assert counted(square(grey(0.2), ALL), square(RED, QUARTER, grey(0.2)))[1] == 0
    assert counted(square(grey(0.2), ALL), square(RED, QUARTER + 1, grey(0.2)))[1] == 4


@pytest.mark.slow
def test_a_field_on_a_larger_picture_is_larger() -> None:
    counter = FlashCounter(RATE, pixels_a_screen_pixel=2.0)
    for n in range(17):
        picture = np.zeros((1152, 1024, 3), np.float32)
        picture[:290, :300] = n % 2  # 87,000 pixels of 4 × 87,296, a hair under a quarter
        counter.see(3 * n, picture)
    assert counter.general().count == 0


@given(st.lists(st.integers(0, 400), unique=True).map(sorted), st.sampled_from([24, 30, 60]))
def test_the_worst_second_is_the_worst_of_all_seconds(frames: Sequence[int], rate: int) -> None:
    brute = max((sum(start <= f < start + rate for f in frames) // 2 for start in range(401)), default=0)
    assert worst(frames, Fraction(rate)).count == brute

"""Times become samples once, and what is cut fits into what it is cut from."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from studio.timeline.heard import RATE, nearest_sample

from .long_song import excerpt_of, placed

SECONDS = st.fractions(F(-10), F(100), max_denominator=10**6)


@given(SECONDS)
def test_the_nearest_sample_is_half_a_sample_away_at_most(seconds: F) -> None:
    off = nearest_sample(seconds) - seconds * RATE
    assert F(-1, 2) < off <= F(1, 2)


@given(st.integers(-1000, 1000))
def test_halves_go_up(sample: int) -> None:
    assert nearest_sample(F(2 * sample + 1, 2 * RATE)) == sample + 1
    assert nearest_sample(F(sample, RATE)) == sample


@given(
    st.integers(12, 12 * 20),
    st.fractions(F(2, 5), F(3, 2), max_denominator=100),
    st.integers(1, 4),
    st.booleans(),
)
def test_a_fade_over_the_whole_excerpt_fits_at_any_speed(
    twelfths: int, speed: F, repeat: int, at_end: bool
) -> None:
    # The music is rounded as a number of samples of the recording and again as it is heard, the fade by itself.
    excerpt = excerpt_of(F(1), 1 + F(twelfths, 12), repeat=repeat, speed=speed)
    whole = excerpt.heard - excerpt.counted
    faded = replace(excerpt, **{"fade_out" if at_end else "fade_in": whole})
    cut = placed(faded).plan.laid.cut
    fade = cut.fade_out if at_end else cut.fade_in
    assert cut.music - 2 <= fade <= cut.music
    assert max(cut.fade_in, cut.fade_out) <= cut.music

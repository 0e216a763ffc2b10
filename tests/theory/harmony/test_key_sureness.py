"""How sure a share makes us."""

from hypothesis import given
from hypothesis import strategies as st

from studio.theory.harmony.key_sureness import sureness


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_larger_share_is_never_less_sure(one: float, two: float) -> None:
    low, high = sorted((one, two))
    assert 0 <= sureness(low) <= sureness(high) <= 1


def test_the_ends_hold_and_the_middle_is_lowered() -> None:
    assert (sureness(0), sureness(0.5), sureness(1)) == (0, 0.5, 1)
    assert sureness(0.7) < 0.65
    assert sureness(0.9) < 0.85

"""Times as the review page writes them."""

from __future__ import annotations

from fractions import Fraction


def clock(seconds: Fraction) -> str:
    """A length or place to a second: `1:02`."""
    whole = int(seconds + Fraction(1, 2))
    return f"{whole // 60}:{whole % 60:02}"


def exact(seconds: float) -> str:
    """A time of a recording or take: `1:02.50`."""
    minutes, rest = divmod(round(seconds, 2), 60)
    return f"{int(minutes)}:{rest:05.2f}"

"""What sounds from each moment to the next, found in one pass over a part."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import TypeVar

T = TypeVar("T")


def sounding(
    things: Iterable[T], edges: Iterable[Fraction], times: Callable[[T], tuple[Fraction, Fraction]]
) -> Iterator[tuple[Fraction, Fraction, tuple[T, ...]]]:
    """(start, end, what sounds at the start, in order of onset) from each of `edges` to the next.

    `times` tells when a thing starts and stops; what stops at a moment does not sound at it.
    """
    timed = deque(sorted(((*times(one), one) for one in things), key=lambda one: one[0]))
    held: list[tuple[Fraction, T]] = []
    for start, end in pairwise(sorted(set(edges))):
        while timed and timed[0][0] <= start:
            _, stop, one = timed.popleft()
            held.append((stop, one))
        held = [(stop, one) for stop, one in held if stop > start]
        yield start, end, tuple(one for _, one in held)

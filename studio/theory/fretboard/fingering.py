"""Which finger presses which string.

A hand has four fingers for the neck, and one fret further up is never pressed by a lower finger. Several strings
at one fret take a finger each or share one that is laid flat, a barre. A flat finger also lies on the strings
beyond the barre, on the high side, so that none of them can ring open or at a lower fret; and a string between
two of its own has to be pressed higher up by another finger. Common practice, as any guitar method teaches it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations, pairwise, product

FINGERS = 4


@dataclass(frozen=True, slots=True)
class Press:
    """One finger's work: a fret, and the strings that it presses there; more than one is a barre."""

    fret: int
    strings: tuple[int, ...]

    @property
    def width(self) -> int:
        """How many strings the finger lies across, from its first to its last."""
        return self.strings[-1] - self.strings[0] + 1


Grip = tuple[Press, ...]
"""What each finger does, the index finger first."""


@lru_cache(maxsize=8192)
def grips(frets: tuple[int | None, ...]) -> tuple[Grip, ...]:
    """Every sensible way to press a shape with four fingers; () if there is none."""
    ways = [tuple(_ways_at(frets, fret)) for fret in sorted({fret for fret in frets if fret})]
    whole = (tuple(press for way in choice for press in way) for choice in product(*ways))
    return tuple(grip for grip in whole if len(grip) <= FINGERS)


def _ways_at(frets: Sequence[int | None], fret: int) -> Iterator[Grip]:
    """Finger by finger, and with barres where strings at this fret can share a finger."""
    strings = [string for string, other in enumerate(frets) if other == fret]
    if len(strings) <= FINGERS:
        yield tuple(Press(fret, (string,)) for string in strings)
    if len(strings) > 1 and len(shared := _shared(frets, fret, strings)) < len(strings):
        yield shared


def _shared(frets: Sequence[int | None], fret: int, strings: Sequence[int]) -> Grip:
    """The strings at one fret, neighbours under one flat finger as far as that goes."""
    groups = [[strings[0]]]
    for one, two in pairwise(strings):
        pressed_between = all(other is not None and other > fret for other in frets[one + 1 : two])
        clear_beyond = all(other is None or other >= fret for other in frets[two + 1 :])
        if pressed_between and clear_beyond:
            groups[-1].append(two)
        else:
            groups.append([two])
    return tuple(Press(fret, tuple(group)) for group in groups)


def numbered(grip: Grip, frets: Sequence[int | None]) -> tuple[int, ...]:
    """The finger on each string, 1 to 4, 0 for none: one finger for each fret as far as four fingers go."""
    ways = combinations(range(1, FINGERS + 1), len(grip))
    falls = _where_fingers_fall(grip, frets)
    chosen = min(ways, key=lambda way: (_strain(way, falls, grip), way))
    fingers = [0] * len(frets)
    for finger, press in zip(chosen, grip, strict=True):
        for string in press.strings:
            fingers[string] = finger
    return tuple(fingers)


def _where_fingers_fall(grip: Grip, frets: Sequence[int | None]) -> tuple[int, ...]:
    """The finger that lies over each press by itself, with the index finger at the lowest fret.

    Two frets up on the highest string that is the little finger, unless the middle finger stands beside it and
    leads the ring finger there. One or two fingers on the second fret among open strings keep the hand in first
    position: the index finger stays free, and Em is taken with the second and the third. Common practice.
    """
    low, top = grip[0].fret if grip else 0, len(frets) - 1
    if 0 in frets and len(grip) < 3 and all(press.fret == 2 and press.width == 1 for press in grip):
        low = 1
    falls = []
    for press, before in zip(grip, (None, *grip), strict=False):
        led = before is not None and press.fret - before.fret == 1 and before.strings[-1] == top - 1
        far = press.fret - low == 2 and press.strings[0] == top and before is not None and not led
        falls.append(min(1 + press.fret - low + far, FINGERS))
    return tuple(falls)


def _strain(way: Sequence[int], falls: Sequence[int], grip: Grip) -> int:
    """How far fingers are from where they fall: to reach up is worse than to close up."""
    strain = 0
    for finger, fall, press in zip(way, falls, grip, strict=True):
        flat = finger == FINGERS and len(press.strings) > 2  # the little finger is too weak to lie on three
        strain += max(finger - fall, 2 * (fall - finger)) + 2 * flat
    return strain

"""How hard a shape is to press, as costs that add up; ``sounding`` has those of what it sounds like.

One point is about the trouble of two more fingers. The numbers are ours; each says the reason that a guitarist
would give. What they are tuned against is named in the tests: shapes that people play.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from studio.theory.fretboard import sounding
from studio.theory.fretboard.fingering import Grip, Press
from studio.theory.fretboard.sounding import Sound, sound_points

FINGER = 0.4
"""Each finger that has to come down at the right moment."""

LITTLE_FINGER = 0.2
"""All four of them: the little finger is the weakest, and none is left to correct."""

BARRE = 0.1
BARRE_PER_STRING = 0.1
"""A flat finger is more trouble the wider it lies and the more of its strings it has to make sound itself."""

BARRE_NEAR_NUT = 0.4
"""At the first fret the nut holds the strings up, and a wide barre that has to sound three needs the most force."""

WIDE = 4
"""Strings from which on a barre is wide; the tip of the finger does for fewer."""

OTHER_FINGER_BARRE, AT_EDGE = 0.5, 0.25
"""The other fingers do not lie flat as easily; less badly above the index finger and out to the highest string."""

MIDDLE_FINGER_WIDE = 1.0
"""A wide barre right above the index finger is the middle finger's, and leaves the index finger no room."""

BARRE_FORM = -0.75
"""A barre under the whole chord, from the root up, is learnt once and then moved to every fret."""

APART, COMFORTABLY_APART = 0.15, 2
"""Neighbouring fingers at one fret spread over two strings; each string more twists the hand."""

CROSSED = 0.3
"""Each further finger that works beyond those two: the first one has room in a D, a second has none."""

SPREAD = 0.2
"""Two fingers side by side behind one fret while another reaches two frets up: a barre lets the hand turn."""

PER_FRET = 0.18
"""Low positions are seen, heard and found first; each fret up the neck is a little less at hand."""

STRETCH = (0.0, 0.0, 0.2, 0.9, 1.8)
"""By frets from the lowest finger to the highest; a fret for each finger is already a stretch near the nut."""

STRETCH_ON = 1.0
"""Each further fret, where an instrument lets a hand reach further."""

OPEN_STRING = (-0.25, -0.25, -0.25, -0.25, 0.1, 0.3, 0.5)
"""By the highest fret pressed: near the nut an open string rings by itself and costs no finger."""

OPEN_STRING_HIGH = 0.7
"""Under a hand further up it sticks out of the sound of the others."""

ARCH = 0.15
"""An open string between two pressed ones: both fingers have to stand upright so that it rings."""

REASONS = (
    *("fingers", "barre", "fingers far apart", "place on the neck", "stretch", "open strings", "barre form"),
    *sounding.REASONS,
)
"""What each number of ``points`` is for."""


@dataclass(frozen=True, slots=True)
class Cost:
    """One reason why a shape is easier or harder to choose; ``points`` are negative where it is easier."""

    reason: str
    points: float


def grip_points(grip: Grip, strings: int) -> tuple[float, float, float]:
    """What the fingers cost on a neck of so many strings: how many they are, their barres, how far they lie apart."""
    fingers = FINGER * len(grip) + (LITTLE_FINGER if len(grip) > 3 else 0.0)
    barres = sum(_barre(press, grip, strings) for press in grip)
    apart = sum(_apart(one, two, grip) for one, two in pairwise(grip) if one.fret == two.fret)
    return fingers, barres, apart + _spread(grip)


def points(
    frets: Sequence[int | None], grip: Grip, pitches: Sequence[int], sound: Sound
) -> tuple[float, ...]:
    """The costs of a shape, one for each of ``REASONS``; ``pitches`` are the MIDI notes that sound."""
    pressed = [press.fret for press in grip]
    low, high = (pressed[0], pressed[-1]) if pressed else (0, 0)
    return (
        *grip_points(grip, len(frets)),
        PER_FRET * max(low - 1, 0),
        _stretch(high - low),
        _open(frets, high),
        BARRE_FORM if pitches[0] % 12 == sound.root and _is_barre_form(frets, grip) else 0.0,
        *sound_points(frets, pitches, sound),
    )


def least_points(frets: Sequence[int | None]) -> float:
    """What these frets cost at the very least, whatever fingers press them and however they sound; quickly told.

    Nothing but open strings and a barre form takes points away.
    """
    pressed = {fret for fret in frets if fret}
    low, high = min(pressed, default=0), max(pressed, default=0)
    relief = frets.count(0) * _each_open(high) if 0 in frets else BARRE_FORM
    return FINGER * len(pressed) + PER_FRET * max(low - 1, 0) + _stretch(high - low) + relief


def costs(numbers: Sequence[float]) -> tuple[Cost, ...]:
    """The numbers of ``points`` with their reasons, without those that are nothing."""
    return tuple(Cost(reason, number) for reason, number in zip(REASONS, numbers, strict=True) if number)


def _open(frets: Sequence[int | None], high: int) -> float:
    arches = sum(fret == 0 and bool(below) and bool(above) for below, fret, above in _threes(frets))
    return frets.count(0) * _each_open(high) + ARCH * arches


def _each_open(high: int) -> float:
    return OPEN_STRING[high] if high < len(OPEN_STRING) else OPEN_STRING_HIGH


def _threes(frets: Sequence[int | None]) -> Iterator[tuple[int | None, int | None, int | None]]:
    return zip(frets, frets[1:], frets[2:], strict=False)


def _barre(press: Press, grip: Grip, strings: int) -> float:
    if len(press.strings) == 1:
        return 0.0
    cost = BARRE + BARRE_PER_STRING * (press.width + len(press.strings))
    cost += BARRE_NEAR_NUT if press.fret == 1 and len(press.strings) > 2 and press.width >= WIDE else 0.0
    if press == grip[0]:
        return cost
    up = press.fret - grip[0].fret
    if up == 1 and press.width >= WIDE:
        return cost + MIDDLE_FINGER_WIDE
    return cost + (AT_EDGE if up and press.strings[-1] == strings - 1 else OTHER_FINGER_BARRE)


def _is_barre_form(frets: Sequence[int | None], grip: Grip) -> bool:
    """Whether the index finger lies under a whole chord, from the bass note up, and all strings sound."""
    first = next((string for string, fret in enumerate(frets) if fret is not None), 0)
    if not grip or 0 in frets or None in frets[first:]:
        return False
    return grip[0].strings[0] == first and grip[0].width >= WIDE


def _apart(one: Press, two: Press, grip: Grip) -> float:
    first, last = one.strings[-1], two.strings[0]
    between = sum(first < press.strings[0] < last and press.fret > one.fret for press in grip)
    return APART * max(last - first - COMFORTABLY_APART, 0) + CROSSED * max(between - 1, 0)


def _spread(grip: Grip) -> float:
    two = len(grip) > 2 and grip[0].fret == grip[1].fret
    return SPREAD if two and grip[-1].fret - grip[0].fret > 1 else 0.0


def _stretch(frets: int) -> float:
    widest = len(STRETCH) - 1
    return STRETCH[min(frets, widest)] + STRETCH_ON * max(frets - widest, 0)

"""Words for moments of a groove, counted as drummers do: 2, 2& (the eighth after it), 2e and 2a (its sixteenths)."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from studio.music.meter import Meter
from studio.theory.plain_english import listed

SYLLABLES = {
    Fraction(1, 4): "e", Fraction(1, 2): "&", Fraction(3, 4): "a",
    Fraction(1, 3): " (2nd triplet)", Fraction(2, 3): " (3rd triplet)",
}  # fmt: skip
"""What is said for a part of a beat, after the number of the beat."""

_ORDINALS = ("1st", "2nd", "3rd")


def count_words(at: Fraction, meter: Meter, bars: int = 1) -> str:
    """A moment of a groove as it is counted: "2", "2&", "2a"; in a groove of several bars "2& of bar 2"."""
    bar, part = divmod(at, 1)
    beat, rest = divmod(part * meter.beats, 1)
    said = f"{beat + 1}"
    if rest and meter.compound and (rest * 3).denominator == 1:
        said = f"the {_ORDINALS[int(rest * 3)]} eighth of {beat + 1}"
    elif rest:
        said += SYLLABLES.get(rest, f"+{rest}")
    return f"{said} of bar {bar + 1}" if bars > 1 else said


def places_words(places: Iterable[Fraction], meter: Meter, bars: int = 1) -> str:
    """Moments of a groove: "1, 2& and 3"; what every bar does is said once.

    In compound meters the beats come first, "1, 3 and the 3rd eighth of 2", since "of 2 and 3" would be misread.
    """
    moments = sorted(places)
    once = [at for at in moments if at < 1]
    if bars > 1 and moments == sorted(at + bar for at in once for bar in range(bars)):
        moments, bars = once, 1
    if meter.compound and bars == 1:
        moments.sort(key=lambda at: (at * meter.beats).denominator != 1)
    return listed([count_words(at, meter, bars) for at in moments])

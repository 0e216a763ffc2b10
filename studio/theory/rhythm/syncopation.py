"""How syncopated a rhythm is, by the measure of Longuet-Higgins and Lee.

Source: H. C. Longuet-Higgins and C. S. Lee, "The Rhythmic Interpretation of Monophonic Music", Music Perception 1
(1984), as the "syncopation index" of W. T. Fitch and A. J. Rosenfeld, "Perception and Production of Syncopated
Rhythms", Music Perception 25 (2007), appendix. Each place of the bar has a weight: 0 for its first beat, one less
for each division that it takes to get there (4/4 in eighths: 0 −3 −2 −3 −1 −3 −2 −3). A rest (or held note) of
weight R after a struck note of weight N is a syncopation when N < R, of strength R − N. The index is their sum,
and a repeated pattern wraps around.

In meters of five or seven beats, which the papers leave out, all beats after the first weigh the same.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from studio.music.meter import Meter

MEASURE = "Longuet-Higgins & Lee"
_DIVISIONS = (1, 2, 3, 4, 6, 8, 12, 24)


@dataclass(frozen=True, slots=True)
class Syncopation:
    """``index`` is the sum for the whole pattern and ``bar`` the index per bar.

    ``pairs`` are (struck, missed, strength): a weak place struck and the stronger one that it holds over, both in
    bars from the start of the pattern; ``strongest`` is the pair that pulls hardest, the first of equals.
    """

    index: int
    bar: Fraction
    pairs: tuple[tuple[Fraction, Fraction, int], ...]

    @property
    def strongest(self) -> tuple[Fraction, Fraction, int] | None:
        return max(self.pairs, key=lambda pair: pair[2], default=None)


def weights(meter: Meter, steps: int) -> tuple[int, ...]:
    """The weight of each of ``steps`` equal places of a bar, 0 the heaviest.

    Raises ValueError when the bar's beats do not divide into so many steps.

    >>> weights(Meter(4, 4), 8)
    (0, -3, -2, -3, -1, -3, -2, -3)
    >>> weights(Meter(6, 8), 6)
    (0, -2, -2, -1, -2, -2)
    """
    if steps % meter.beats:
        raise ValueError(f"{steps} steps do not divide the beats of {meter}")
    found = [0] + [-99] * (steps - 1)
    interval = steps
    for level, division in enumerate(_divisions(meter, steps), 1):
        interval //= division
        for place in range(0, steps, interval):
            found[place] = max(found[place], -level)
    return tuple(found)


def _divisions(meter: Meter, steps: int) -> list[int]:
    """How the bar is divided, from the whole to the steps: 2, 2, 2 for 4/4 in eighths, 2, 3 for 6/8 in eighths."""
    divisions = {4: [2, 2], 6: [2, 3], 8: [2, 2, 2]}.get(meter.beats, [meter.beats])
    rest = steps // meter.beats
    if meter.compound and rest % 3 == 0:
        divisions = [*divisions, 3]
        rest //= 3
    while rest > 1:
        division = 2 if rest % 2 == 0 else rest
        divisions = [*divisions, division]
        rest //= division
    return [division for division in divisions if division > 1]


def syncopation(onsets: Iterable[Fraction], bars: int, meter: Meter) -> Syncopation:
    """The syncopation index of a pattern that goes round and round.

    ``onsets`` are in bars from the start of the pattern, within its ``bars`` bars; in any order. A pattern that is
    silent, or lies on no grid of up to 24 steps to a beat, has index 0.
    """
    struck = sorted(set(onsets))
    steps = _grid(struck, meter)
    if not struck or steps is None:
        return Syncopation(0, Fraction(0), ())
    weight = weights(meter, steps)
    length = steps * bars
    places = [int(at * steps) for at in struck]
    pairs = []
    for place, following in zip(places, [*places[1:], places[0] + length], strict=True):
        for rest in range(place + 1, following):
            strength = weight[rest % steps] - weight[place % steps]
            if strength > 0:
                pairs.append((Fraction(place, steps), Fraction(rest % length, steps), strength))
    index = sum(strength for _, _, strength in pairs)
    return Syncopation(index, Fraction(index, bars), tuple(pairs))


def _grid(struck: list[Fraction], meter: Meter) -> int | None:
    """The fewest steps of a bar that hold all onsets."""
    grids = (meter.beats * division for division in _DIVISIONS)
    return next((grid for grid in grids if all((at * grid).denominator == 1 for at in struck)), None)

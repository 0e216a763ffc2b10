"""The most typical bar of a groove, or pair or four of bars, and how the others vary."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.groove import Groove, join_bars
from studio.music.kit import CYMBAL_MARKS

_SETTLED = Fraction(3, 4)  # a unit that so many bars follow is the groove

_Strokes = frozenset[tuple[str, Fraction]]


@dataclass(frozen=True, slots=True)
class TypicalBar:
    """What a groove mostly does.

    ``groove`` is the unit (one, two or four bars); ``alike`` are the bars, counted from 1, that play it exactly and
    ``varied`` those that do not. Crashes and other cymbals that mark the form are no part of the comparison.
    """

    groove: Groove
    alike: tuple[int, ...]
    varied: tuple[int, ...]

    @property
    def share(self) -> Fraction:
        """How much of the groove is typical, 0 to 1."""
        count = len(self.alike) + len(self.varied)
        return Fraction(len(self.alike), count) if count else Fraction(1)


def typical_bar(groove: Groove) -> TypicalBar:
    """The bar that is played most often; of equals, the one nearest to all others, then the first.

    Where single bars explain less than three quarters, pairs of bars are tried and then fours: a clave takes two
    bars. Two different bars by themselves are a pair. Ghost notes count as strokes; loudness does not matter.
    """
    bars = groove.each_bar()
    strokes = [_strokes(bar) for bar in bars]
    if groove.bars == 2 and strokes[0] != strokes[1]:
        return TypicalBar(groove, (1, 2), ())
    best = _of_length(1, bars, strokes)
    for length in (2, 4):
        if best.share >= _SETTLED or groove.bars < 2 * length or groove.bars % length:
            break
        longer = _of_length(length, bars, strokes)
        if longer.share >= max(_SETTLED, best.share + Fraction(1, 4)):
            best = longer
    return best


def repeating_unit(groove: Groove) -> TypicalBar:
    """The bars after which a groove repeats exactly; the whole of it where it does not: as it was written."""
    bars = groove.each_bar()
    everyone = tuple(range(1, groove.bars + 1))
    for length in range(1, groove.bars):
        if groove.bars % length == 0 and all(bars[n] == bars[n % length] for n in range(groove.bars)):
            return TypicalBar(join_bars(bars[:length]), everyone, ())
    return TypicalBar(groove, everyone, ())


def _of_length(length: int, bars: Sequence[Groove], strokes: list[_Strokes]) -> TypicalBar:
    chosen = [_most_typical(range(first, len(bars), length), strokes) for first in range(length)]
    alike = tuple(
        number + 1 for number, stroke in enumerate(strokes) if stroke == strokes[chosen[number % length]]
    )
    varied = tuple(number for number in range(1, len(bars) + 1) if number not in alike)
    return TypicalBar(join_bars(bars[number] for number in chosen), alike, varied)


def _most_typical(numbers: range, strokes: list[_Strokes]) -> int:
    counts: dict[_Strokes, int] = {}
    first: dict[_Strokes, int] = {}
    for number in numbers:
        counts[strokes[number]] = counts.get(strokes[number], 0) + 1
        first.setdefault(strokes[number], number)
    most = max(counts.values())
    tied = [bar for bar, count in counts.items() if count == most]
    distance = _distance_to(counts)
    return first[min(tied, key=lambda bar: (distance(bar) if len(tied) > 1 else 0, first[bar]))]


def _distance_to(counts: dict[_Strokes, int]) -> Callable[[_Strokes], int]:
    return lambda bar: sum(len(bar ^ other) * count for other, count in counts.items())


def _strokes(bar: Groove) -> _Strokes:
    return frozenset(
        (voice, hit.at) for voice, line in bar.lines if voice not in CYMBAL_MARKS for hit in line
    )

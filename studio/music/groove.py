"""Grooves: who in the drum kit strikes when, over one bar or a few, and drum parts as they are played."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from studio.music.kit import VOICES
from studio.music.meter import Meter

Touch = Literal["ghost", "plain", "accent"]


@dataclass(frozen=True, slots=True, order=True)
class Hit:
    """One stroke. ``at`` is in bars from the start of the groove: 1/4 is beat 2 of a bar of 4/4."""

    at: Fraction
    touch: Touch = "plain"


@dataclass(frozen=True, slots=True)
class Stroke:
    """One stroke as played in a song: ``onset`` in quarters from bar 1 beat 1, ``loudness`` 0 to 1."""

    onset: Fraction
    voice: str
    loudness: float = 0.7


@dataclass(frozen=True, slots=True)
class Drums:
    """A drum part as played, in the order of time."""

    strokes: tuple[Stroke, ...]


@dataclass(frozen=True, slots=True)
class Groove:
    """What each voice strikes over ``bars`` bars of a meter; make one with ``Groove.of``.

    ``lines`` are (voice, hits), voices in the order of the kit and hits in the order of time, none of them empty.
    """

    meter: Meter
    bars: int
    lines: tuple[tuple[str, tuple[Hit, ...]], ...]

    @classmethod
    def of(cls, meter: Meter, bars: int, hits: Mapping[str, Iterable[Hit]]) -> Groove:
        """The groove with these hits, in whatever order they come; of two strokes at once the louder stays.

        Raises ValueError for a hit outside of the bars or a voice that no kit has.
        """
        lines = []
        for voice in sorted(hits, key=_place_in_kit):
            struck: dict[Fraction, Hit] = {}
            for hit in sorted(hits[voice], key=lambda hit: (hit.at, _LOUDNESS[hit.touch])):
                if not 0 <= hit.at < bars:
                    raise ValueError(f"a hit at {hit.at} lies outside of a groove of {bars} bars")
                struck[hit.at] = hit
            if struck:
                lines.append((voice, tuple(struck.values())))
        return cls(meter, bars, tuple(lines))

    @property
    def voices(self) -> tuple[str, ...]:
        """The voices that strike at all."""
        return tuple(voice for voice, _ in self.lines)

    def hits(self, *voices: str) -> tuple[Hit, ...]:
        """The hits of these voices (of all, if none is named) in the order of time, one for each of them."""
        return tuple(
            sorted(hit for voice, line in self.lines if not voices or voice in voices for hit in line)
        )

    def onsets(self, *voices: str, ghosts: bool = True) -> tuple[Fraction, ...]:
        """When any of these voices strikes, each moment once, in bars; without ghost notes if so asked."""
        return tuple(sorted({hit.at for hit in self.hits(*voices) if ghosts or hit.touch != "ghost"}))

    def each_bar(self) -> tuple[Groove, ...]:
        """Its bars, each as a groove of its own."""
        bars: list[dict[str, list[Hit]]] = [{} for _ in range(self.bars)]
        for voice, line in self.lines:
            for hit in line:
                bar = hit.at.numerator // hit.at.denominator
                bars[bar].setdefault(voice, []).append(Hit(hit.at - bar, hit.touch))
        return tuple(
            Groove(self.meter, 1, tuple((voice, tuple(line)) for voice, line in bar.items())) for bar in bars
        )

    def bar(self, number: int) -> Groove:
        """One bar of it, counted from 1, as a groove of its own."""
        return self.each_bar()[number - 1]

    def without(self, *voices: str) -> Groove:
        """The groove without some of its voices."""
        return Groove(self.meter, self.bars, tuple(line for line in self.lines if line[0] not in voices))


_LOUDNESS: dict[Touch, int] = {"ghost": 0, "plain": 1, "accent": 2}


def _place_in_kit(voice: str) -> int:
    if voice not in VOICES:
        raise ValueError(f"'{voice}' is no voice of a drum kit")
    return VOICES.index(voice)


def join_bars(bars: Iterable[Groove]) -> Groove:
    """Grooves of one meter, one after the other. Raises ValueError when there are none or the meters differ."""
    parts = list(bars)
    if not parts or any(part.meter != parts[0].meter for part in parts):
        raise ValueError("only grooves of one meter can be joined")
    hits: dict[str, list[Hit]] = {}
    start = 0
    for part in parts:
        for voice, line in part.lines:
            hits.setdefault(voice, []).extend(Hit(hit.at + start, hit.touch) for hit in line)
        start += part.bars
    return Groove.of(parts[0].meter, start, hits)

"""Places in a song as people say them (bar and beat), and spans between two of them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, order=True)
class Place:
    """An instant: beat `beat` of bar `bar`. Beats count from 1 in the meter's own beat and may be fractions.

    Bar 0 is the pickup bar; its beats are numbered as the last beats of a full bar, so that the beat
    before bar 1 in 4/4 is 0.4.
    """

    bar: int
    beat: Fraction = Fraction(1)

    def __str__(self) -> str:
        if self.beat == 1:
            return str(self.bar)
        whole, rest = divmod(self.beat, 1)
        return f"{self.bar}.{whole}" + (f"+{rest}" if rest else "")


@dataclass(frozen=True, order=True)
class Span:
    """A stretch of song from `start` up to `end`, in quarter notes from bar 1 beat 1."""

    start: Fraction
    end: Fraction

    def __post_init__(self) -> None:
        if self.end < self.start:
            raise ValueError(f"a span cannot end ({self.end}) before it starts ({self.start})")

    @property
    def length(self) -> Fraction:
        return self.end - self.start

    def contains(self, quarters: Fraction) -> bool:
        return self.start <= quarters < self.end

    def overlaps(self, other: Span) -> bool:
        return self.start < other.end and other.start < self.end

    def intersection(self, other: Span) -> Span | None:
        """The stretch that both share, or None where they share none."""
        if not self.overlaps(other):
            return None
        return Span(max(self.start, other.start), min(self.end, other.end))

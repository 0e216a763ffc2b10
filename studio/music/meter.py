"""Meters, and the beats that musicians count in them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

_WRITTEN = re.compile(r"\s*(\d{1,2})\s*/\s*(\d{1,2})\s*")
_UNITS = (1, 2, 4, 8, 16, 32)


@dataclass(frozen=True)
class Meter:
    """A time signature: `count` notes of `unit` to the bar.

    >>> Meter.parse("6/8").beats
    2
    """

    count: int
    unit: int

    def __post_init__(self) -> None:
        if self.count < 1 or self.unit not in _UNITS:
            raise ValueError(f"'{self.count}/{self.unit}' is not a meter; write one such as 4/4, 3/4 or 6/8")

    @classmethod
    def parse(cls, text: str) -> Meter:
        """Read `4/4`. Raises ValueError with a plain sentence."""
        found = _WRITTEN.fullmatch(text)
        if not found:
            raise ValueError(f"'{text}' is not a meter; write one such as 4/4, 3/4 or 6/8")
        return cls(int(found[1]), int(found[2]))

    @property
    def bar(self) -> Fraction:
        """Length of a full bar, in quarter notes."""
        return Fraction(4 * self.count, self.unit)

    @property
    def compound(self) -> bool:
        """Whether beats divide in three: 6/8, 9/8, 12/8 are counted in dotted quarters."""
        return self.unit >= 8 and self.count > 3 and self.count % 3 == 0

    @property
    def beat(self) -> Fraction:
        """Length of one counted beat, in quarter notes."""
        return Fraction(4 * (3 if self.compound else 1), self.unit)

    @property
    def beats(self) -> int:
        """Counted beats in a bar."""
        return self.count // 3 if self.compound else self.count

    def __str__(self) -> str:
        return f"{self.count}/{self.unit}"

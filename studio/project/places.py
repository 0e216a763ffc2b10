"""Places in a song as people write them: `6`, `5-8`, `6.3-8.1`, `verse`, `verse bar 2`, `verse bars 1-4`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from studio.project.complaints import MisfitError

_FORMS = "a place is written 6, 5-8, 6.3, 6.3-8.1, verse, verse bar 2 or verse bars 1-4"
_LONGEST = 100
_SPOT = r"\d{1,5}(?:\.\d{1,2}(?:\+\d{1,3}/\d{1,3})?)?"
_RANGE = rf"({_SPOT})(?:\s*[-–—]\s*({_SPOT}))?"
_BARS = re.compile(_RANGE, re.ASCII)
_IN_SECTION = re.compile(rf"(\S(?:.*?\S)?)\s+bars?\s+{_RANGE}", re.ASCII)


@dataclass(frozen=True)
class Spot:
    """A bar, or with `beat` an instant in it. Beats count from 1."""

    bar: int
    beat: Fraction | None = None

    def __str__(self) -> str:
        if self.beat is None:
            return str(self.bar)
        whole, rest = divmod(self.beat, 1)
        return f"{self.bar}.{whole}" + (f"+{rest}" if rest else "")


@dataclass(frozen=True)
class WrittenPlace:
    """What a person wrote, before anyone knows how long the song is.

    `section` alone is all of it; with `first` the bars count inside the section; `last` ends a range.
    """

    section: str | None = None
    first: Spot | None = None
    last: Spot | None = None

    @property
    def instant(self) -> bool:
        """Whether this is one moment rather than a stretch."""
        return self.first is not None and self.first.beat is not None and self.last is None

    def __str__(self) -> str:
        if self.first is None:
            return self.section or ""
        spots = str(self.first) + (f"-{self.last}" if self.last else "")
        if self.section is None:
            return spots
        return f"{self.section} {'bars' if self.last else 'bar'} {spots}"


def read_place(text: str) -> WrittenPlace:
    """Read a place. What is not bars and beats is taken for a section's name. Raises MisfitError.

    >>> read_place("verse bars 1-4").last
    Spot(bar=4, beat=None)
    """
    text = " ".join(text.split())
    if len(text) > _LONGEST:
        raise MisfitError(f"'{text}' is too long for a place in the song; {_FORMS}")
    if found := _BARS.fullmatch(text):
        return _range(text, None, found[1], found[2])
    if found := _IN_SECTION.fullmatch(text):
        return _range(text, found[1], found[2], found[3])
    if not text or re.fullmatch(r"[\d\s.,:;+/–—-]+", text):
        raise MisfitError(f"'{text}' is not a place in the song; {_FORMS}")
    return WrittenPlace(text)


def read_bars(text: str) -> tuple[int, int]:
    """(first, last) of `5-12` or `24`, whole bars. Raises MisfitError."""
    found = _BARS.fullmatch(" ".join(text.split()))
    if found is None or "." in found[0]:
        raise MisfitError(f"'{text}' is not a range of bars; write first and last, as 5-12")
    place = _range(text, None, found[1], found[2])
    assert place.first is not None
    return place.first.bar, (place.last or place.first).bar


def _range(text: str, section: str | None, first: str, last: str | None) -> WrittenPlace:
    start, end = _spot(text, first), _spot(text, last) if last else None
    if end is not None:
        if (start.beat is None) != (end.beat is None):
            raise MisfitError(f"'{text}' has a beat at one end only; write it at both, or at neither")
        whole_bars = start.beat is None
        if end.bar < start.bar or (not whole_bars and (end.bar, end.beat) <= (start.bar, start.beat)):
            raise MisfitError(f"'{text}' ends before it starts; write the earlier place first")
    return WrittenPlace(section, start, end)


def _spot(text: str, written: str) -> Spot:
    bar, _, beat = written.partition(".")
    if not beat:
        return Spot(int(bar))
    whole, _, fraction = beat.partition("+")
    try:
        rest = Fraction(fraction or 0)
    except ZeroDivisionError:
        raise MisfitError(f"'{text}' divides a beat by nothing; write a fraction such as 1/2") from None
    if rest >= 1:
        raise MisfitError(f"'{text}' adds a whole beat or more; add less than 1, as 6.2+1/2")
    return Spot(int(bar), int(whole) + rest)

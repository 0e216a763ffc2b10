"""Lengths that are counted in bars and beats, and where they lie in a song."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import floor
from typing import Literal

from studio.music.meter import Meter
from studio.music.songtime import SongTime
from studio.project.complaints import MisfitError
from studio.project.times import needs_rewriting, read_length

_COUNTED = re.compile(
    r"(?:(\d{1,3}(?:\.\d{1,4})?)|(?:(\d{1,3})\+)?(\d{1,3}/\d{1,3}))\s*(bar|beat)(s?)",
    re.ASCII | re.IGNORECASE,
)
_MEANT = re.compile(r"\b(bar|beat)s?\b", re.IGNORECASE)
_WORDS = re.compile(r"^\D*$|[^\W\d]{2}")
MOST_BARS = 64
_MOST_COUNTED = {"bar": 4, "beat": 16}
_NO_COUNT_IN = "write 1 bar, or 4 beats: whole ones, up to 4 bars or 16 beats"
_NEARLY = Fraction(
    1, 8
)  # of a beat: so much before a bar line still is on it, to catch the stick or the pick


@dataclass(frozen=True)
class Counted:
    """So many bars, or so many of the beats that the meter counts."""

    count: Fraction
    unit: Literal["bar", "beat"]


def read_counted(text: str) -> Counted:
    """`1 bar`, `2 beats`, `1/2 beat`, `1+1/2 bars`. Raises MisfitError."""
    found = _COUNTED.fullmatch(" ".join(text.split()))
    if found is None:
        raise MisfitError(
            needs_rewriting(text)
            or f"'{text}' is not a length in bars or beats; write 1 bar, 2 beats or 1/2 beat"
        )
    try:
        count = Fraction(found[1]) if found[1] else Fraction(found[2] or 0) + Fraction(found[3])
    except ZeroDivisionError:
        raise MisfitError(f"'{text}' divides by nothing; write a fraction such as 1/2") from None
    unit: Literal["bar", "beat"] = "bar" if found[4].lower() == "bar" else "beat"
    if count > (MOST_BARS if unit == "bar" else MOST_BARS * 4):
        raise MisfitError(f"'{text}' is longer than any use of it; write {MOST_BARS} bars at most")
    return Counted(count, unit)


def read_either(
    text: str, rate: Callable[[], Fraction], remedy: str = "write 0.5, 2 beats or 1 bar"
) -> Fraction | Counted:
    """A length in bars or beats, or in seconds, for which a bare number will do.

    Raises MisfitError, with a remedy where it is no length at all.
    """
    if _MEANT.search(text):
        return read_counted(text)
    if _WORDS.search(text):
        raise MisfitError(
            needs_rewriting(text) or f"'{text}' is not a time, nor a number of bars or beats; {remedy}"
        )
    return read_length(text, rate)


def read_count_in(text: str) -> Counted:
    """What is counted before the music: whole bars or beats. Raises MisfitError."""
    text = text.strip()
    if text.isdecimal() and 1 <= int(text) <= _MOST_COUNTED["beat"]:
        beats = "1 beat" if int(text) == 1 else f"{int(text)} beats"
        raise MisfitError(f"'{text}' has no unit; write {beats}, or 1 bar")
    misfit = MisfitError(f"'{text}' is no count-in; {_NO_COUNT_IN}")
    try:
        counted = read_counted(text)
    except MisfitError:
        raise misfit from None
    if counted.count.denominator != 1 or not 1 <= counted.count <= _MOST_COUNTED[counted.unit]:
        raise misfit
    return counted


@dataclass(frozen=True)
class Counting:
    """The bars and beats of a song, which go on backwards before bar 1 in the meter of bar 1.

    Bar 0 is then a whole bar whatever the pickup, before it comes bar -1. Moments are quarters from bar 1 beat 1.
    """

    time: SongTime

    def meter(self, bar: int) -> Meter:
        return self.time.meter(bar)

    def bar_start(self, bar: int) -> Fraction:
        """Quarters at the bar line with which a bar begins."""
        return (bar - 1) * self.meter(1).bar if bar < 1 else self.time.bar_start(bar)

    def bar_at(self, quarters: Fraction) -> int:
        """The bar that counts at a moment."""
        return floor(quarters / self.meter(1).bar) + 1 if quarters < 0 else self.time.bar_at(quarters)

    def moved(self, quarters: Fraction, length: Counted, back: bool = False) -> Fraction:
        """The moment so many bars or beats after another one, or before it.

        Parts of a bar count in proportion: half a bar after the middle of one is the next bar line, even where the
        meter changes there.
        """
        count = -length.count if back else length.count
        bar = self.bar_at(quarters)
        passed = quarters - self.bar_start(bar)
        if length.unit == "bar":
            whole, rest = divmod(bar + passed / self.meter(bar).bar + count, 1)
            return self.bar_start(int(whole)) + rest * self.meter(int(whole)).bar
        target = passed / self.meter(bar).beat + count
        while target < 0:
            bar -= 1
            target += self.meter(bar).beats
        while target >= self.meter(bar).beats:
            target -= self.meter(bar).beats
            bar += 1
        return self.bar_start(bar) + target * self.meter(bar).beat

    def next_bar_line(self, quarters: Fraction) -> Fraction:
        """The first bar line after a moment."""
        return self.bar_start(self.bar_at(quarters) + 1)

    def count_in(self, start: Fraction, length: Counted) -> Fraction:
        """Where a count-in begins that leads up to a moment: on a counted beat, or with bars on a bar line.

        Bars are counted up to the bar line at or before the moment, and on to the moment: music that starts at
        beat 4 is counted 1 2 3 4, 1 2 3.
        """
        bar = self.bar_at(start)
        beat = self.meter(bar).beat
        if length.unit == "bar":
            near = self.next_bar_line(start) - start <= _NEARLY * beat
            return self.bar_start(bar + near - int(length.count))
        passed = start - self.bar_start(bar)
        first = self.bar_start(bar) + floor(passed / beat) * beat
        back = length.count if first == start else length.count - 1
        return self.moved(first, Counted(back, "beat"), back=True)

    def quarter_seconds(self, quarters: Fraction) -> Fraction:
        """Seconds for each quarter, over the counted beat that begins at a moment."""
        beat = self.meter(self.bar_at(quarters)).beat
        return (self.time.seconds(quarters + beat) - self.time.seconds(quarters)) / beat

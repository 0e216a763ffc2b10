"""The times of an excerpt that depend on each other: its tail, its fades and its count-in.

What is written in bars and beats is measured in the song, at the place where it stands. What is written in seconds
is measured as it is heard, slowed or not.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.checking import Findings
from studio.project.counting import MOST_BARS, Counted, Counting
from studio.project.marks import ValuePath
from studio.project.model import CountIn, Excerpt, Play
from studio.project.sound_text import ExcerptText, Measure

_MILLISECONDS_FROM = 10


@dataclass(frozen=True)
class Stretch:
    """A stretch of the recording: quarters, its seconds, and how fast it is heard."""

    time: SongTime
    span: Span
    start: Fraction
    end: Fraction
    speed: Fraction

    @property
    def counting(self) -> Counting:
        return Counting(self.time)

    def with_tail(self, tail: Fraction) -> Span:
        """What of the song is heard when the recording goes on for so many seconds."""
        return Span(self.span.start, max(self.span.end, self.time.quarters_at(self.end + tail)))

    def after(self, quarters: Fraction, length: Measure) -> Fraction:
        """Seconds of the recording that a length takes from a moment on."""
        if isinstance(length, Fraction):
            return length * self.speed
        return self.time.seconds(self.counting.moved(quarters, length)) - self.time.seconds(quarters)

    def before(self, quarters: Fraction, length: Measure) -> Fraction:
        """Seconds of the recording that a length takes up to a moment."""
        if isinstance(length, Fraction):
            return length * self.speed
        return self.time.seconds(quarters) - self.time.seconds(
            self.counting.moved(quarters, length, back=True)
        )


@dataclass(frozen=True)
class Tail:
    """Seconds for which the recording goes on after an excerpt. `short` says that it ends before it should, or that
    the song does, where that alone is played."""

    seconds: Fraction
    short: bool = False


def tail_of(
    tail: Measure | bool, path: ValuePath, stretch: Stretch, ends: Collection[Fraction], findings: Findings
) -> Tail:
    """How long an excerpt rings on: to the next bar line, or as long as written.

    `ends` are the seconds at which each of what is heard ends; what ends last decides. Where that is sooner than
    the tail, so does the tail end; a tail that was written, and of which less than half is left, is a mistake.
    """
    if tail is False:
        return Tail(Fraction(0))
    end, counting = stretch.span.end, stretch.counting
    if isinstance(tail, bool):
        wanted = stretch.time.seconds(counting.next_bar_line(end)) - stretch.end
    else:
        wanted = stretch.after(end, tail)
        most = stretch.time.seconds(counting.moved(end, Counted(Fraction(MOST_BARS), "bar"))) - stretch.end
        if wanted > most:
            findings.complain(path, f"This tail is longer than any use of it; write {MOST_BARS} bars at most")
            return Tail(Fraction(0))
    left = max(max(ends, default=stretch.end + wanted) - stretch.end, Fraction(0))
    if not isinstance(tail, bool) and 2 * left < wanted:
        findings.complain(path, _too_little(left / stretch.speed, wanted / stretch.speed))
    return Tail(min(wanted, left), left < wanted)


def _too_little(left: Fraction, wanted: Fraction) -> str:
    if not left:
        return "Nothing is left after the excerpt that could ring on; leave 'tail' out, or end the excerpt sooner"
    sentence = (
        f"The tail would take {_short(wanted)} s, but the sound ends {_short(left)} s after the excerpt"
    )
    return f"{sentence}; write tail: yes, or end the excerpt sooner"


def _short(seconds: Fraction) -> str:
    return f"{float(round(seconds, 3)):g}"


def fades_of(
    text: ExcerptText, path: ValuePath, tail: Fraction, stretch: Stretch, findings: Findings
) -> tuple[Fraction, Fraction]:
    """Seconds of clip time of the fade at each end.

    With a tail the fade out takes all of it, unless it is written by itself.
    """
    fade = text.fade
    fade_in = stretch.after(stretch.span.start, fade.start) if fade.start is not None else Fraction(0)
    last = stretch.span.end if not tail else stretch.time.quarters_at(stretch.end + tail)
    fade_out = stretch.before(last, fade.end) if fade.end is not None else Fraction(0)
    if (*path, "fade", "out") not in findings.marks.values:
        fade_out = max(fade_out, tail)
    return fade_in / stretch.speed, fade_out / stretch.speed


def check_fades(excerpt: Excerpt, path: ValuePath, tail: Tail, findings: Findings) -> None:
    """Fades may not take longer than all that is heard."""
    both, whole = excerpt.fade_in + excerpt.fade_out, excerpt.heard - excerpt.counted
    if both <= whole or not findings.sound(*path, "tail"):
        return
    ends = ", as nothing is left to ring on longer" if tail.short else ""
    sentence = f"The fades take {_short(both)} s together, but the excerpt lasts only {_short(whole)} s{ends}"
    written = findings.marks.values.get((*path, "fade"))
    if written is not None and written.text.isdecimal():
        sentence += "; a bare number is seconds"
        if int(written.text) >= _MILLISECONDS_FROM:
            sentence += f": did you mean {int(written.text) / 1000:g}?"
    else:
        sentence += "; make them shorter"
    findings.complain((*path, "fade"), sentence)


def count_in_of(counted: Counted | None, stretch: Stretch) -> CountIn | None:
    """The count-in, at the tempo of the excerpt's first beat."""
    if counted is None:
        return None
    start = stretch.counting.count_in(stretch.span.start, counted)
    beat = stretch.counting.quarter_seconds(stretch.span.start)
    return CountIn(start, (stretch.span.start - start) * beat / stretch.speed)


def free_fades(
    text: ExcerptText, path: ValuePath, play: Play, findings: Findings
) -> tuple[Fraction, Fraction]:
    """Fades of what is played in no place of the song, whose beats are those of its tempo."""

    def seconds(length: Measure | None, key: str) -> Fraction:
        if isinstance(length, Counted):
            if length.unit == "bar":
                sentence = (
                    f"'{play.name}' stands in no place of the song and has no bars; write beats or seconds"
                )
                findings.complain((*path, "fade", key), sentence)
            return length.count * 60 / play.tempo / text.speed
        return length or Fraction(0)

    return seconds(text.fade.start, "in"), seconds(text.fade.end, "out")

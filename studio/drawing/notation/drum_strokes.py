"""The strokes of a groove over a stretch of song: a pattern goes round and round, a played part is put on its grid."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from typing import NoReturn

from studio.drawing.notation.system import LineName
from studio.music.groove import Drums, Groove
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.drum_engraving import Struck, kit_place
from studio.theory.rhythm.playing import put_on_grid

Sections = Sequence[tuple[str, Span]]


def strokes_over(
    source: Groove | Drums, time: SongTime, sections: Sections, span: Span, refuse: Callable[[str], NoReturn]
) -> tuple[Struck, ...]:
    """Every stroke within the bars of a span, in the order of time. Refuses a pattern that the bars do not fit."""
    bars = [(number, start) for number, start in time.barlines(_whole_bars(time, span)) if number > 0]
    if isinstance(source, Groove):
        found = list(_pattern(source, time, sections, span, bars, refuse))
    else:
        found = list(_played(source, time, bars))
    inside = [struck for struck in found if span.contains(struck.onset)]
    return tuple(sorted(inside, key=lambda struck: (struck.onset, kit_place(struck.voice).line)))


def line_names(strokes: Sequence[Struck]) -> tuple[LineName, ...]:
    """The voices of the kit beside the lines and spaces that they stand on."""
    voices = {kit_place(stroke.voice).line: "" for stroke in strokes}
    for stroke in strokes:
        line = kit_place(stroke.voice).line
        if stroke.voice not in voices[line].split(" / "):
            voices[line] = f"{voices[line]} / {stroke.voice}" if voices[line] else stroke.voice
    voices = {line: _short(words) for line, words in voices.items()}
    return tuple(LineName(words, line) for line, words in sorted(voices.items()))


def _short(words: str) -> str:
    """`hat / open hat` is plainly the hat: a voice that another of its line is named after goes without saying."""
    voices = words.split(" / ")
    return " / ".join(
        v for v in voices if not any(v != other and v.endswith(f" {other}") for other in voices)
    )


def _whole_bars(time: SongTime, span: Span) -> Span:
    first, last = time.bar_at(span.start), time.bar_at(span.end)
    end = span.end if time.bar_start(max(last, 1)) == span.end else time.bar_start(last + 1)
    return Span(time.bar_start(first) if first else span.start, end)


def _pattern(
    groove: Groove,
    time: SongTime,
    sections: Sections,
    span: Span,
    bars: Sequence[tuple[int, Fraction]],
    refuse: Callable[[str], NoReturn],
) -> Iterator[Struck]:
    """The pattern from the start of the section that the span starts in, so that its first bar is the section's."""
    start = next((section.start for _, section in sections if section.contains(span.start)), Fraction(0))
    origin = time.bar_at(max(start, Fraction(0)))
    for number, at in bars:
        meter = time.meter(number)
        if meter != groove.meter:
            refuse(
                f"this groove is in {groove.meter} and bar {number} in {meter}; choose bars in "
                f"{groove.meter} with 'where'"
            )
        turn = (number - origin) % groove.bars
        for voice, hits in groove.lines:
            for hit in hits:
                if turn <= hit.at < turn + 1:
                    yield Struck(at + (hit.at - turn) * meter.bar, voice, hit.touch)


def _played(drums: Drums, time: SongTime, bars: Sequence[tuple[int, Fraction]]) -> Iterator[Struck]:
    """What was played, on the grid that explains it best; bars of another meter are put on a grid of their own."""
    for meter, run in groupby(bars, key=lambda bar: time.meter(bar[0])):
        numbers = [number for number, _ in run]
        span = time.bars(numbers[0], numbers[-1])
        played = put_on_grid(drums, time, span)
        for voice, hits in played.groove.lines:
            for hit in hits:
                whole = hit.at.numerator // hit.at.denominator
                at = time.bar_start(played.bars[whole])
                yield Struck(at + (hit.at - whole) * meter.bar, voice, hit.touch)

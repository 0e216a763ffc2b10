"""The bars of a section: how many, in what phrases, which are odd, and whether the tune starts before them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.meter import Meter
from studio.music.note import Note
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.form.phrases import Phrase, group_phrases
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import length_words, number_word, plural

_LONGEST_PICKUP = 2  # quarter notes


@dataclass(frozen=True, slots=True)
class OddBar:
    """A bar whose meter is not the usual one of its section."""

    bar: int
    span: Span
    meter: Meter
    usual: Meter
    reason: str


@dataclass(frozen=True, slots=True)
class Pickup:
    """How far the tune starts before a section's first bar line, in quarters."""

    at: Fraction
    length: Fraction
    reason: str


@dataclass(frozen=True, slots=True)
class BarsReading:
    """The bars of a section.

    ``phrases`` are in order and fill it. ``remark`` says what is odd about its length ("one bar more than eight"),
    "" where nothing is. ``runner_up`` is the next best grouping ("3 + 5"), "" where none is near. ``sureness`` is a
    judgement: low where only the norm of four bars decides.
    """

    span: Span
    bars: int
    phrases: tuple[Phrase, ...]
    odd_bars: tuple[OddBar, ...]
    remark: str
    pickup: Pickup | None
    reason: str
    sureness: float
    runner_up: str = ""


def bars_reading(
    span: Span, time: SongTime, readings: Sequence[Reading] = (), notes: Sequence[Note] = ()
) -> BarsReading:
    """The bars of a section, by its chords and its tune, whose notes before the section may be its pickup.

    Total: no chords, no tune, no bars are fine.
    """
    lines = [(bar, start) for bar, start in time.barlines(span) if bar > 0]
    if not lines:
        return BarsReading(span, 0, (), (), "", None, "There is no whole bar here.", 1.0)
    found = group_phrases(span, time, readings, notes)
    return BarsReading(
        span=span,
        bars=len(lines),
        phrases=found.phrases,
        odd_bars=_odd_bars(lines, time),
        remark=_remark(len(lines)),
        pickup=_pickup(lines[0][1], notes),
        reason=found.reason,
        sureness=found.sureness,
        runner_up=found.runner_up,
    )


def _odd_bars(lines: Sequence[tuple[int, Fraction]], time: SongTime) -> tuple[OddBar, ...]:
    meters = [time.meter(bar) for bar, _ in lines]
    usual = max(dict.fromkeys(meters), key=meters.count)
    return tuple(
        OddBar(bar, Span(start, start + meter.bar), meter, usual, f"Bar {bar} is in {meter}, not {usual}.")
        for (bar, start), meter in zip(lines, meters, strict=True)
        if meter != usual
    )


def _remark(count: int) -> str:
    """What is odd about a number of bars, against the nearest multiple of four."""
    if count < 3 or count % 4 == 0:
        return ""
    near = 4 * ((count + 1) // 4)
    more = count - near
    bars = f"{number_word(abs(more))} {plural(abs(more), 'bar')}"
    return f"{bars} {'more' if more > 0 else 'fewer'} than {number_word(near)}"


def _pickup(line: Fraction, notes: Sequence[Note]) -> Pickup | None:
    """Notes that run up to the first bar ``line`` of a section without a rest, after one."""
    early = sorted((note for note in notes if note.onset < line), key=lambda note: note.onset)
    edge = line
    for note in reversed(early):
        if note.end < edge or line - note.onset > _LONGEST_PICKUP or note.end > line:
            break
        edge = note.onset
    rested = not any(note.onset < edge <= note.end for note in early)
    if edge == line or not rested or not any(note.onset == line for note in notes):
        return None
    length = line - edge
    before = length_words(length) or f"{float(length):.3g} quarters"
    return Pickup(edge, length, f"The tune starts {before} before the bar line.")

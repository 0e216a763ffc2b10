"""The chords of a loop as steps: one after another, or bar by bar where the form is counted in bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import lcm

from studio.drawing.lettering.reading_words import chord_words, numeral_words
from studio.drawing.lettering.symbols import NumeralWords, SymbolWords
from studio.drawing.loop.arrangement import BARS_IN_A_ROW, Step
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading

MOST_PARTS = 4
"""Parts of a bar in which its chords may fall."""

AGAIN = NumeralWords("%")
"""A bar that is the bar before it again, as charts write it (common practice)."""

SILENT = NumeralWords("N.C.")


def steps_in_a_row(readings: Sequence[Reading], differing: Sequence[Span]) -> tuple[Step, ...]:
    """One step for each chord; one that is struck again in the same key goes on."""
    kept: list[Reading] = []
    for reading in readings:
        if not kept or not _same(kept[-1], reading):
            kept.append(reading)
    return tuple(_step(reading, reading.at.start, differing) for reading in kept)


def steps_in_bars(
    readings: Sequence[Reading], span: Span, differing: Sequence[Span], time: SongTime
) -> tuple[tuple[Step, ...], int]:
    """The steps of whole bars of one length, each at its place, and how many parts a bar has; () and 0 where the bars
    of a span cannot be told so."""
    lines = [at for _, at in time.barlines(span)]
    bars = [Span(one, two) for one, two in pairwise((*lines, span.end))]
    if not bars or lines[0] != span.start or len({bar.length for bar in bars}) > 1:
        return (), 0
    held = [[reading for reading in readings if reading.at.span.overlaps(bar)] for bar in bars]
    places = [
        (max(reading.at.start, bar.start) - bar.start) / bar.length
        for bar, inside in zip(bars, held, strict=True)
        for reading in inside
    ]
    parts = lcm(*(place.denominator for place in places))
    if parts > MOST_PARTS or not all(held):
        return (), 0
    return tuple(_bar_by_bar(bars, held, parts, differing)), parts


def _bar_by_bar(
    bars: Sequence[Span], held: Sequence[Sequence[Reading]], parts: int, differing: Sequence[Span]
) -> Iterator[Step]:
    for number, (bar, inside) in enumerate(zip(bars, held, strict=True)):
        before = held[number - 1] if number % BARS_IN_A_ROW else ()
        if len(inside) == 1 == len(before) and _same(before[0], inside[0]):
            marked = any(span.contains(bar.start) for span in differing)
            yield Step(AGAIN, SymbolWords(""), marked, number * parts)
            continue
        for reading in inside:
            start = max(reading.at.start, bar.start)
            place = number * parts + int((start - bar.start) / bar.length * parts)
            yield _step(reading, start, differing, place)


def _step(reading: Reading, start: Fraction, differing: Sequence[Span], place: int | None = None) -> Step:
    differs = any(span.contains(start) for span in differing)
    numeral = numeral_words(reading)
    symbol = chord_words(reading.at.chord) if numeral else SymbolWords("")
    return Step(numeral or SILENT, symbol, differs, place)


def _same(before: Reading, reading: Reading) -> bool:
    return (before.numeral, before.at.chord, before.key) == (reading.numeral, reading.at.chord, reading.key)

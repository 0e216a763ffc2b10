"""Other chords in a chart's cells: what sounds there in a pass that is played otherwise, and when."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from studio.drawing.chart.chart import ChartCell, Origin
from studio.drawing.chart.lane import Sounding
from studio.drawing.lettering.reading_words import chord_words, instead_remarks, numeral_words
from studio.theory.harmony.reading import Reading
from studio.timeline.ask import Ask
from studio.timeline.changes import Changed

_State = tuple[Fraction, Fraction, Sounding]


def origin(reading: Reading) -> Origin:
    """Where a chord comes from that is no plain chord of its key."""
    if reading.pivot is not None:
        return "pivot"
    if reading.kind == "substitute dominant":
        return "applied"
    return reading.kind if reading.kind in ("applied", "borrowed") else ""


def with_changes(
    cells: Sequence[ChartCell], readings: Sequence[Reading], ask: Ask, numerals: bool
) -> tuple[ChartCell, ...]:
    """The cells of some readings, each with the chords that sound in its place."""
    return tuple(
        replace(cell, instead=tuple(_instead(cell, reading, one, numerals) for one in _others(reading, ask)))
        for cell, reading in zip(cells, readings, strict=True)
    )


def _others(reading: Reading, ask: Ask) -> tuple[Changed, ...]:
    """The changes in which another chord sounds while a chord is written."""
    return tuple(
        one
        for one in ask.changed
        if one.of_harmony and one.chord != reading.at.chord and one.span.overlaps(reading.at.span)
    )


def _instead(cell: ChartCell, reading: Reading, change: Changed, numerals: bool) -> ChartCell:
    read = change.reading if numerals else None
    return replace(
        cell,
        symbol=chord_words(change.chord),
        numeral=numeral_words(read) if read else None,
        notes=instead_remarks(cell.symbol.text, silent=change.chord is None),
        aims=False,
        origin=origin(read) if read else "",
    )


def changed_looks(states: Sequence[_State], readings: Sequence[Reading], ask: Ask) -> tuple[_State, ...]:
    """What the chart shows in changed passes: another chord where one sounds, and else what it shows in the others."""
    found = (state for one in ask.changed for state in _within(states, one, readings, ask))
    return tuple(sorted(found, key=lambda state: state[:2]))


def _within(
    states: Sequence[_State], change: Changed, readings: Sequence[Reading], ask: Ask
) -> Iterator[_State]:
    for start, end, look in states:
        first, last = max(start, change.span.start), min(end, change.span.end)
        if first >= last:
            continue
        others = _others(readings[look.now], ask) if look.now is not None else ()
        yield first, last, replace(look, instead=others.index(change)) if change in others else look

"""Reading a chart: each chord as a Roman numeral in its key, with what it does there and why."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.key import Key
from studio.theory.harmony import reasons
from studio.theory.harmony.applied import Applied
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.functions import function_of, is_cadential, is_deceptive
from studio.theory.harmony.numeral_writing import write_numeral
from studio.theory.harmony.reading import Function, Reading, Style
from studio.theory.harmony.spot import Found, Spot


def read_chart(
    chart: Chart, keys: Sequence[tuple[Fraction, Key]], style: Style = "relative-to-major"
) -> tuple[Reading, ...]:
    """Read every chord of a chart in its key.

    ``keys`` says from which quarter note on each key holds, ascending; the first also covers what is before.
    A chord is read in the key that holds where it starts. These are tried in order: it belongs to the key; it
    is applied and resolved, or the ii before such a chord; it is borrowed; it is applied without resolving;
    it is some other chord from outside. A suspended or power chord beside a chord on the same root is read
    as that chord.

    One reading for each chord of the chart, in order; N.C. has one of kind "none". Raises ValueError when
    there are no keys.
    """
    if not keys:
        raise ValueError("A chart is read in a key, and none is given: infer the keys first.")
    starts = [start for start, _ in keys]
    readings: list[Reading] = []
    after: Applied | None = None
    for place in reversed(range(len(chart.chords))):
        at = chart.chords[place]
        key = keys[max(bisect_right(starts, at.start) - 1, 0)][1]
        if at.chord is None:
            after = None
            readings.append(Reading(at, key, "", "", "none", reason="No chord sounds here."))
            continue
        spot = Spot(chart.chords, place, key, style)
        found = spot.read(after)
        after = found.applied
        readings.append(_reading(at, key, spot, found))
    return _with_pivots(readings[::-1], style)


def _reading(at: ChordAt, key: Key, spot: Spot, found: Found) -> Reading:
    function = _function(spot, key, found)
    reason = found.reason
    if found.kind == "diatonic" and spot.after and is_cadential(spot.chord, key, spot.after):
        reason = reasons.cadential(spot.chord, spot.after)
    elif found.kind in ("diatonic", "borrowed") and is_deceptive(spot.chord, key, spot.earlier()):
        reason = reasons.deceptive(spot.chord)
    return Reading(
        at=at,
        key=key,
        numeral=str(found.numeral),
        function=function,
        kind=found.kind,
        of=found.numeral.of,
        resolved=found.resolved,
        source=found.source,
        reason=reasons.with_bass(reason, spot.chord, key, function, bool(found.numeral.figures)),
        sureness=round(found.sureness, 2),
        runner_up=found.runner_up,
        numeral_display=found.numeral,
    )


def _function(spot: Spot, key: Key, found: Found) -> Function:
    if found.applied is not None:
        return "subdominant" if found.applied.base == "ii" else "dominant"
    return function_of(spot.model, key, spot.before, spot.after)


def _with_pivots(readings: list[Reading], style: Style) -> tuple[Reading, ...]:
    """Mark the chord that both keys share where one key gives way to the next.

    It is the last chord of the old key, if it belongs to both and does not press home as the new key's
    dominant; or else the first chord of the new key, if it belongs to both.
    """
    sounding = [place for place, reading in enumerate(readings) if reading.kind != "none"]
    for last, first in pairwise(sounding):
        old, new = readings[last].key, readings[first].key
        if old == new:
            continue
        before = _pivot(readings[last].at.chord, old, new, style)
        if before is not None and function_of_chord(readings[last].at.chord, new) != "dominant":
            readings[last] = replace(readings[last], pivot=before)
        elif (after := _pivot(readings[first].at.chord, new, old, style)) is not None:
            readings[first] = replace(readings[first], pivot=after)
        elif before is not None:
            readings[last] = replace(readings[last], pivot=before)
    return tuple(readings)


def _pivot(chord: Chord | None, home: Key, other: Key, style: Style) -> tuple[Key, str] | None:
    if chord is None or not belongs(chord, home) or not belongs(chord, other):
        return None
    return other, str(write_numeral(chord, other, style, chord.triad))


def function_of_chord(chord: Chord | None, key: Key) -> Function:
    """The function of a chord in a key, without its neighbours."""
    return "" if chord is None else function_of(chord, key, None, None)

"""A chart that comes round: its last chord goes on to the start of the section that it ends.

A dominant at the end of a loop or of a form is there for the chord that the next time round begins with: the last
G♭7 of a bossa in F slides to its first Fmaj7. The chart does not say whether it is played again, so readings
that only hold then are a little less sure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from studio.music.chart import Chart, ChordAt
from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.harmony.standing import same_harmony

_HARMONIES = 3  # of the start that are heard again; what is further on changes nothing at the end
_SURENESS = 0.9


def start_again(chart: Chart, sections: Sequence[Span]) -> tuple[ChordAt, ...]:
    """The chords that follow when the last section, or without sections the whole chart, starts again.

    They are the section's own, where they stand in the chart. None follow if the chart is silent, or if the
    section starts on the harmony that it ends on, which has arrived and waits for nothing.
    """
    sounding = [at for at in chart.chords if at.chord is not None]
    if not sounding:
        return ()
    last = sounding[-1]
    start = max((span.start for span in sections if span.contains(last.start)), default=sounding[0].start)
    opening = [at for at in sounding if at.start >= start]
    if _joined(last, opening[0]):
        return ()
    changes = [place for place in range(1, len(opening)) if not _joined(opening[place - 1], opening[place])]
    return tuple(opening[: changes[_HARMONIES - 1]] if len(changes) >= _HARMONIES else opening)


def if_it_comes_round(once: Sequence[Reading], again: Sequence[Reading]) -> tuple[Reading, ...]:
    """The readings of a chart that is played once, save those that need the start again to make sense."""
    return tuple(
        one if _says(one) == _says(two) else _less_sure(one, two)
        for one, two in zip(once, again, strict=True)
    )


def _joined(one: ChordAt, two: ChordAt) -> bool:
    return one.chord is not None and two.chord is not None and same_harmony(one.chord, two.chord)


def _says(reading: Reading) -> tuple[object, ...]:
    return reading.numeral, reading.function, reading.kind, reading.of, reading.resolved, reading.name


def _less_sure(once: Reading, again: Reading) -> Reading:
    told = once.reason == again.reason
    reason = again.reason if told else f"{again.reason[:-1]} when it comes round."
    return replace(again, reason=reason, pivot=once.pivot, sureness=round(again.sureness * _SURENESS, 2))

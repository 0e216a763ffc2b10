"""Where phrases may end, as far as bars and sections tell.

Common practice: phrases are four bars long, counted from where their section starts, unless someone who has
looked at the form says otherwise. A rest of one bar or less belongs to the phrase before it, so that the
ninth bar of an eight-bar tune, where the last chord rings, is part of its last phrase.
"""

from __future__ import annotations

from collections.abc import Sequence

from studio.music.place import Span
from studio.music.songtime import SongTime

BARS = 4


def four_bar_phrases(sections: Sequence[Span], time: SongTime) -> tuple[Span, ...]:
    """The phrases of each section, in quarter notes; a pickup belongs to the first phrase of its section."""
    return tuple(phrase for section in sections for phrase in _phrases(section, time))


def _phrases(section: Span, time: SongTime) -> list[Span]:
    bars = [(bar, start) for bar, start in time.barlines(section) if bar > 0]
    if not bars:
        return [section] if section.length else []
    starts = [section.start, *(start for _, start in bars[BARS::BARS])]
    if len(starts) > 1 and section.end - starts[-1] <= time.meter(bars[-1][0]).bar:
        starts.pop()
    return [Span(start, end) for start, end in zip(starts, [*starts[1:], section.end], strict=True)]

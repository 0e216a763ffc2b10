"""Breaking a map into rows: as few as let every section have its name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise

from studio.drawing.map.ruler import Ruler
from studio.drawing.map.sections_setting import setting
from studio.drawing.map.song_map import SongMap
from studio.drawing.themes.theme import Theme
from studio.music.place import Span

MOST_WIDE, MOST = 2, 4
"""Rows on a wide canvas, and on another."""


def in_rows(content: SongMap, starts: Sequence[Fraction], width: int, height: int, theme: Theme) -> SongMap:
    """The map in rows that begin at `starts` of sections, as far as a picture of this size has room for rows."""
    canvas, best = content.canvas, content
    most = MOST_WIDE if canvas.width > canvas.height else MOST
    for count in range(1, min(most, len(starts)) + 1):
        tried = replace(content, rows=broken(content.ruler, starts, count))
        found = setting(tried, width, theme)
        if count > 1 and found.extent.least * canvas.unit > height:
            break
        best = tried
        if found.names.whole:
            break
    return best


def broken(found: Ruler, starts: Sequence[Fraction], rows: int) -> tuple[Span, ...]:
    """The whole length of a ruler in so many rows, the longest of them as short as can be."""
    whole = found.span
    places = {start: found.share(start) for start in starts if whole.start < start < whole.end}

    def longest(cuts: tuple[Fraction, ...]) -> float:
        return max(two - one for one, two in pairwise([0.0, *(places[cut] for cut in cuts), 1.0]))

    cuts = min(combinations(places, min(rows - 1, len(places))), key=longest)
    return tuple(Span(one, two) for one, two in pairwise([whole.start, *cuts, whole.end]))

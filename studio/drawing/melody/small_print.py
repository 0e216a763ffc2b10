"""The names of tones under a line: each under its own note, all of a line in one form and one size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import Line, plain
from studio.drawing.melody.line import SungLine, SungRow
from studio.drawing.melody.placing import placed
from studio.drawing.themes.theme import SMALLEST, Theme

OVER_PRINT, UNDER_PRINT, LEADING = 1.2, 0.28, 1.22
"""Units over the names; under them and from one row to the next, in sizes of type."""

APART, MOVED, UNDER_NOTE = 2.2, 3.6, 0.6
"""Units between names side by side, by which one may be moved to the right of its note's middle, and by which it
still reaches under its note where there is no better way."""


@dataclass(frozen=True)
class Printed:
    """A name in its place: the tone's number, the left end in pixels, which row of names."""

    number: int
    words: Line
    left: float
    row: int


def print_height(line: SungLine) -> float:
    """Pixels of the names under a row of the line."""
    if not line.named:
        return 0.0
    size = line.canvas.pixels(line.print_size)
    lines = CAP + UNDER_PRINT + (line.print_rows - 1) * LEADING
    return OVER_PRINT * line.canvas.unit + lines * size


def with_names(line: SungLine, width: float, theme: Theme) -> SungLine:
    """The line with its names as large and as long as all have room; the smallest has two rows of them."""
    if not line.named:
        return line
    for size, short, rows in (
        (theme.sizes.label, False, 1),
        (theme.sizes.label * 0.85, False, 1),
        (theme.sizes.label * 0.85, True, 1),
        (SMALLEST, False, 1),
        (SMALLEST, True, 1),
    ):
        tried = replace(line, print_size=max(size, SMALLEST), short=short, print_rows=rows)
        if all(_whole(tried, row, width, theme) for row in line.rows):
            return tried
    return replace(line, print_size=SMALLEST, short=True, print_rows=2)


def printed(line: SungLine, row: SungRow, width: float, theme: Theme) -> Iterator[Printed]:
    """The names under a row, from left to right; what has no room in the rows of names is left out."""
    u, size = line.canvas.unit, line.canvas.pixels(line.print_size)
    free = [PADDING * u] * line.print_rows
    for one in placed(line, row, width, theme) or ():
        names = line.tones[one.number].names
        if not names:
            continue
        words = plain(names[-1 if line.short else 0], size, theme.weights.regular)
        last = width - PADDING * u - words.width
        wanted = min(one.middle - words.width / 2, last)
        for number in range(line.print_rows):
            left = max(wanted, free[number])
            most = wanted + MOVED * u if line.print_rows == 1 else one.middle - UNDER_NOTE * u
            if left <= min(max(wanted, most), last):
                yield Printed(one.number, words, left, number)
                free[number] = left + words.width + APART * u
                break


def _whole(line: SungLine, row: SungRow, width: float, theme: Theme) -> bool:
    """Whether all names of a row have room."""
    tones = placed(line, row, width, theme) or ()
    wanted = sum(bool(line.tones[one.number].names) for one in tones)
    return sum(1 for _ in printed(line, row, width, theme)) == wanted

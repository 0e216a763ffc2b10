"""How a comparison of scales is set: its columns, its sentence, what the shapes in it mean."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import Line, balanced, plain
from studio.drawing.melody.comparison import Column, Comparison, ScaleRow
from studio.drawing.themes.theme import SMALLEST, Theme

NOTES = 0.9
"""Size of the notes' names, in shares of the degrees', where there is the width."""

NAMES_GAP, COLUMN_GAP, WIDEST_COLUMN, NARROWEST_COLUMN = 3.5, 1.4, 18.0, 4.8
"""Units: from the names of the scales to the first column, between two columns' words, and a column's width."""

BRACKETED, UNDER_DEGREE, UNDER_HEAD, ROW, LEAST_ROW, OVER_WORDS, UNDER_WORDS = (
    1.2,
    1.6,
    2.2,
    6.0,
    4.8,
    3.0,
    2.8,
)
"""Units: room for brackets over the degrees, from those to the notes' names, from these to the rows, a row, from the
rows to the sentence, and from that to the small print."""

TIGHT, AROUND_NAME = 2.0, 1.6
"""Units over and under all where a panel is as low as it can be, and between the names of rows at least."""

NAMED = 1.2
"""Units over the name of a scale that stands over its row."""

LEADING = 1.28
"""From one line of words to the next, in sizes of type."""

SHAPE, ANSWER = 1.7, 1.5
"""Units: radius of a shape, and half the height of the triangle before what may be meant."""

LINES = (2, 3)
"""Lines of the sentence: that many if it has room in them, else so many more."""

LEGEND: tuple[tuple[str, str], ...] = (
    ("heard", "heard"),
    ("missing", "not heard"),
    ("foreign", "heard, not in the scale"),
    ("decides", "decides"),
    ("decides unheard", "decides, in the chords"),
    ("would decide", "would decide"),
)
"""The shapes and what they mean, in the order in which they are explained."""

Legend = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Layout:
    """How a comparison is set in some width. Lengths are pixels.

    `beside` is whether the names stand left of the rows, or over them; `notes` is the size of the notes' names;
    `sentence` is in lines, at `size`; `legend` is the small print, (shape, meaning) in lines.
    """

    beside: bool
    names: float
    column: float
    notes: float
    sentence: tuple[str, ...]
    size: float
    legend: tuple[Legend, ...]


@lru_cache(maxsize=128)
def laid_out(content: Comparison, width: float, theme: Theme) -> Layout | None:
    """The layout for a panel `width` pixels wide; None where the columns or the sentence have no room."""
    u = content.canvas.unit
    room = width - 2 * PADDING * u
    names = max(name_line(content, row, theme).width for row in content.rows) + indent(content)
    names = max(names, corner(content, theme).width) + NAMES_GAP * u
    count = len(content.columns)
    sentence = _sentence(content, room, theme)
    large, small = content.canvas.pixels(theme.sizes.label), content.canvas.pixels(theme.sizes.small)
    ways = [(True, large * NOTES), (True, small), (False, large * NOTES), (False, small)]
    for beside, notes in ways:
        given = room - names if beside else room
        if sentence is not None and _column_needed(content, notes, theme) * count <= given:
            column = min(given / count, WIDEST_COLUMN * u)
            legend = tuple(_legend(content, room, theme))
            return Layout(beside, names if beside else 0.0, column, max(notes, small), *sentence, legend)
    return None


def heights(content: Comparison, width: float, theme: Theme) -> tuple[float, float]:
    """Units of height at which all words can be read, and that the comparison wants."""
    found = laid_out(content, width, theme)
    assert found is not None, "it was composed for this width"
    around = words_height(content, found, theme) / content.canvas.unit
    rows = len(content.rows)
    least = least_row(content, found, theme) / content.canvas.unit
    return around + rows * least + 2 * TIGHT, around + rows * max(ROW, least) + 2 * PADDING


def least_row(content: Comparison, found: Layout, theme: Theme) -> float:
    """Pixels that a row has at least: room for its shapes, and for its name if that stands beside them."""
    name = CAP * content.canvas.pixels(theme.sizes.label) + AROUND_NAME * content.canvas.unit
    return max(LEAST_ROW * content.canvas.unit, name if found.beside else 0.0)


def words_height(content: Comparison, found: Layout, theme: Theme) -> float:
    """Pixels of all that is not a row."""
    u, canvas = content.canvas.unit, content.canvas
    label, small = canvas.pixels(theme.sizes.label), canvas.pixels(theme.sizes.small)
    tall = CAP * (label + found.notes) + (BRACKETED + UNDER_DEGREE + UNDER_HEAD) * u
    tall += len(content.rows) * over_row(content, found, theme)
    if found.sentence:
        tall += OVER_WORDS * u + CAP * found.size + (len(found.sentence) - 1) * LEADING * found.size
    if found.legend:
        tall += UNDER_WORDS * u + CAP * small + (len(found.legend) - 1) * LEADING * small
    return tall


def over_row(content: Comparison, found: Layout, theme: Theme) -> float:
    """Pixels over a row for its name, where that does not stand beside it."""
    if found.beside:
        return 0.0
    return CAP * content.canvas.pixels(theme.sizes.label) + (NAMED + 0.7) * content.canvas.unit


def name_line(content: Comparison, row: ScaleRow, theme: Theme) -> Line:
    """The name of a scale, stronger where it may be meant."""
    weight = theme.weights.strong if row.answer else theme.weights.regular
    return plain(row.name, content.canvas.pixels(theme.sizes.label), weight)


def indent(content: Comparison) -> float:
    """Pixels for a triangle before the names, where only some of the scales may be meant."""
    some = {row.answer for row in content.rows} == {True, False}
    return (1.5 * ANSWER + 1.0) * content.canvas.unit if some else 0.0


def corner(content: Comparison, theme: Theme) -> Line:
    """What stands over the names of the scales."""
    return plain(f"tonic {content.tonic}", content.canvas.pixels(theme.sizes.small), theme.weights.regular)


def degree_size(content: Comparison, theme: Theme) -> float:
    """The size of the degrees; where a note has two, all are set as small as can be read."""
    crowded = any("/" in column.degree for column in content.columns)
    return content.canvas.pixels(theme.sizes.small if crowded else theme.sizes.label)


def legend_line_width(content: Comparison, legend: Legend, theme: Theme) -> float:
    return sum(entry_width(content, words, theme) for _, words in legend)


def entry_width(content: Comparison, words: str, theme: Theme) -> float:
    """Pixels from one shape of the small print to the next."""
    small = content.canvas.pixels(theme.sizes.small)
    return plain(words, small, theme.weights.regular).width + (2 * SHAPE + 4.0) * content.canvas.unit


def _column_needed(content: Comparison, notes: float, theme: Theme) -> float:
    """Pixels that the widest column needs, with the notes' names of a size."""
    size, weights = degree_size(content, theme), theme.weights
    words = [plain(column.degree, size, weights.strong) for column in content.columns]
    words += [plain(column.name, notes, weights.regular) for column in content.columns]
    widest = max(line.width for line in words)
    return max(widest + COLUMN_GAP * content.canvas.unit, NARROWEST_COLUMN * content.canvas.unit)


def _sentence(content: Comparison, room: float, theme: Theme) -> tuple[tuple[str, ...], float] | None:
    """The longest sentence that has room in few lines, in lines, and its size; None where none has."""
    canvas, strong = content.canvas, theme.weights.strong
    for most in LINES:
        for text in content.says:
            for size in (theme.sizes.label, max(SMALLEST, theme.sizes.label * 0.85), SMALLEST):
                pixels = canvas.pixels(size)
                lines = balanced(text, pixels, strong, room)
                if len(lines) <= most and all(plain(line, pixels, strong).width <= room for line in lines):
                    return lines, pixels
    return None


def legend_shape(column: Column) -> str:
    """How the small print calls what a column does to tell the scales apart."""
    return "decides unheard" if column.telling == "decides" and not column.heard else column.telling


def _legend(content: Comparison, room: float, theme: Theme) -> Iterator[Legend]:
    """The shapes that are seen and what they mean, in lines."""
    seen: set[str] = set(map(legend_shape, content.columns))
    for row in content.rows:
        cells = zip(row.cells, content.columns, strict=True)
        seen |= {cell for cell, column in cells if not column.telling or cell == "foreign"}
    line: Legend = ()
    for entry in LEGEND:
        if entry[0] not in seen:
            continue
        if line and legend_line_width(content, (*line, entry), theme) > room:
            yield line
            line = ()
        line = (*line, entry)
    if line:
        yield line

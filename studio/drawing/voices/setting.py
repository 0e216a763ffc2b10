"""How voices are set in a panel: where columns stand, how large the names are, what is said under them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.drawing.frame import PADDING
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import smallest_symbol_size, symbol
from studio.drawing.lettering.type import Line, balanced, plain
from studio.drawing.themes.theme import SMALLEST, Theme
from studio.drawing.voices.voices import Column, Voices, heights

BRACKET, UNDER_SYMBOL, MOTION, OVER_WORDS, LEADING = 3.0, 3.8, 4.2, 3.2, 4.4
"""Units: the bracket, symbols over voices, the line that tells of contrary or parallel motion, words under
voices, line to line where small print is small."""

LINE = 10.5
"""Units that a line from note to note has at least: room for the mark of a half step."""

GAP = 1.1
"""Units between a name and the lines that reach it."""

WIDEST = 70.0
"""Units that a column takes at most: three chords fill a wide panel, and two stand together."""

_LABEL, _STEP = 38.0, 1.28
"""The size of names for which the heights of notes are made, and a line of words in sizes of its type."""

SYMBOL = 0.8
"""Size of the symbols, in shares of the theme's: the voices lead."""

LEAST, MOST = 0.7, 1.3
"""How much lower or taller than it wants to be the part with the voices may be."""

MOST_LINES = 2


@dataclass(frozen=True)
class Setting:
    """Units of the parts of a callout of some width, as it wants to be; the words to say of each column."""

    symbol: float  # pixels
    voices: float
    motion: bool
    words: tuple[tuple[str, ...], ...]

    @property
    def lines(self) -> int:
        return max((len(lines) for lines in self.words), default=0)


@lru_cache(maxsize=64)
def setting(content: Voices, width: float, theme: Theme) -> Setting:
    """The setting of all pages of a content in a panel `width` pixels wide."""
    canvas = content.canvas
    pages = [content.columns[first : last + 1] for first, last in content.pages]
    room = width - 2 * PADDING * canvas.unit
    size = canvas.pixels(theme.sizes.symbol) * SYMBOL
    least = canvas.pixels(smallest_symbol_size())
    widest = max(symbol(column.symbol, size, theme.weights).width for column in content.columns)
    across = room / max(len(page) for page in pages) - 2 * canvas.unit
    return Setting(
        symbol=max(least, size * min(1.0, across / widest)),
        voices=max(max(heights(page).values()) for page in pages) * spread(theme),
        motion=any(column.motion for page in pages for column in page[:-1]),
        words=tuple(_words(column, room, content, theme) for column in content.columns),
    )


def tall(found: Setting, content: Voices, theme: Theme, share: float = 1.0) -> float:
    """Units of height with the voices set at a share of what they want."""
    u = content.canvas.unit
    fixed = 2 * PADDING + BRACKET + CAP * found.symbol / u + UNDER_SYMBOL
    words = (
        OVER_WORDS + ((found.lines - 1) * leading(content, theme) + CAP * _small(content, theme)) / u
        if found.lines
        else 0.0
    )
    return fixed + name_height(share, content, theme) + found.voices * share + MOTION * found.motion + words


def spread(theme: Theme) -> float:
    """By how much notes stand further apart than is their wont, for a theme with large names."""
    return max(1.0, theme.sizes.label / _LABEL)


def leading(content: Voices, theme: Theme) -> float:
    """Pixels from one line of words to the next."""
    return max(LEADING * content.canvas.unit, _STEP * _small(content, theme))


def name_height(share: float, content: Voices, theme: Theme) -> float:
    """Units that a note's name is high."""
    return CAP * name_size(share, content, theme) / content.canvas.unit


def name_size(share: float, content: Voices, theme: Theme) -> float:
    """Pixels of the names of notes, smaller where their voices lie closer together."""
    return content.canvas.pixels(max(SMALLEST, theme.sizes.label * min(1.0, share)))


def least_width(column: Column, content: Voices, theme: Theme) -> float:
    """Pixels that a chord takes at least, set as small as can be read, with the line that leaves it."""
    canvas, weights = content.canvas, theme.weights
    names = [plain(note.name, canvas.pixels(SMALLEST), weights.strong).width for note in column.notes]
    signed = symbol(column.symbol, canvas.pixels(smallest_symbol_size()), weights).width
    return max(max(names, default=0.0) + (2 * GAP + LINE) * canvas.unit, signed + 2 * canvas.unit)


def small_lines(lines: tuple[str, ...], content: Voices, theme: Theme) -> list[Line]:
    """Words set in small print."""
    return [plain(text, _small(content, theme), theme.weights.regular) for text in lines]


def _small(content: Voices, theme: Theme) -> float:
    return content.canvas.pixels(theme.sizes.small)


def _words(column: Column, room: float, content: Voices, theme: Theme) -> tuple[str, ...]:
    """The fullest words that fit, broken into lines; the shortest if none do."""
    lines: tuple[str, ...] = ()
    for said in column.said:
        lines = balanced(said, _small(content, theme), theme.weights.regular, room)
        if len(lines) <= MOST_LINES:
            break
    return lines

"""Words over and on a keyboard: the chord, which hand is which, names of keys, and the height that they take."""

from __future__ import annotations

import math
from collections.abc import Sequence

from studio.drawing.frame import PADDING
from studio.drawing.instruments.growth import growth, least_symbol
from studio.drawing.instruments.keys import Holding, Keyboard
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.symbols import symbol
from studio.drawing.lettering.type import Line, plain
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.theme import Theme

LONG, LEAST_LONG = 23.0, 13.0
"""Units that a long key is tall, and at least, under words of the usual size."""

LEGEND, NAMES, AROUND_SYMBOL = 4.75, 4.5, 2.9
"""Units: which hand is which, and the names of short keys over the keyboard, in words of the usual size; and the
room over and under the chord's symbol."""

SIGN, BETWEEN = 3.8, 4.0
"""Units: from a sign of the legend to its words, and from one to the next."""

_SYMBOL, _NEXT_SYMBOL = 0.75, 0.83
"""Size of the chord symbol over the keyboard, in shares of the theme's, and of the one that comes next, in shares
of that."""


def top_row(content: Keyboard, theme: Theme) -> float:
    """Units of the row over the keyboard, without the names of short keys."""
    if content.chords:
        return CAP * symbol_size(theme) / 8 + AROUND_SYMBOL
    return LEGEND * growth(theme) if content.two_hands or content.previewed else 0.0


def names_row(content: Keyboard, theme: Theme) -> float:
    """Units of the names of short keys over the keyboard."""
    return NAMES * growth(theme) if content.named else 0.0


def keyboard_height(content: Keyboard, theme: Theme, long: float = LONG) -> int:
    """Units that the callout takes with long keys `long` units tall under words of the usual size."""
    rows = top_row(content, theme) + names_row(content, theme)
    return math.ceil(2 * PADDING + rows + long * growth(theme))


def legend_width(content: Keyboard, theme: Theme, room: float) -> float:
    """Pixels that the legend takes where there are `room` pixels across."""
    return _legend_across(legend_lines(content, theme, room), content.canvas.unit)


def _legend_across(lines: Sequence[tuple[int, Line]], u: float) -> float:
    return sum(line.width + (SIGN + BETWEEN) * u for _, line in lines) - (BETWEEN * u if lines else 0)


def symbols_width(content: Keyboard, look: Holding, theme: Theme) -> float:
    """Pixels that the names of a look's chords take."""
    return max((at + line.width for line, at, _ in symbols(content, look, theme)), default=0.0)


def legend_lines(content: Keyboard, theme: Theme, room: float) -> list[tuple[int, Line]]:
    """The words of the legend with the hand that each is about, 0 for what comes next; shorter where that takes
    more than `room` pixels."""
    size, found = content.canvas.pixels(theme.sizes.small), list[tuple[int, Line]]()
    for hand in (" hand", ""):
        said = [(2, f"left{hand}"), (1, f"right{hand}")] if content.two_hands else []
        if content.previewed and not content.chords:
            said.append((0, "next"))
        found = [(sign, plain(words, size, theme.weights.regular)) for sign, words in said]
        if _legend_across(found, content.canvas.unit) <= room:
            break
    return found


def symbol_size(theme: Theme) -> float:
    """Pixels at 1080 lines of the chord symbol over the keyboard."""
    return max(theme.sizes.symbol * _SYMBOL, least_symbol(theme) / _NEXT_SYMBOL)


def symbols(content: Keyboard, look: Holding, theme: Theme) -> list[tuple[Line, float, Colour]]:
    """The chord that sounds, the one that is written there if that is another, and the one that comes next: what is
    set, how far from the left, in which colour."""
    u, size, found, x = content.canvas.unit, content.canvas.pixels(symbol_size(theme)), [], 0.0
    if look.chord:
        found.append((symbol(look.chord, size, theme.weights), x, theme.colours.now))
        x += found[-1][0].width + 3 * u
    others = [
        ("instead of", look.instead, theme.colours.quiet),
        ("next", look.next_chord, theme.colours.next),
    ]
    for said, chord, colour in others:
        if chord is None:
            continue
        word = plain(said, content.canvas.pixels(theme.sizes.small), theme.weights.regular)
        found.append((word, x, colour))
        x += word.width + 1.2 * u
        found.append((symbol(chord, size * _NEXT_SYMBOL, theme.weights), x, colour))
        x += found[-1][0].width + 3 * u
    return found

"""Where a paragraph may be broken into lines: the Unicode Line Breaking Algorithm (UAX #14), by the uniseg library.

Scripts that write no spaces but need a dictionary to be broken (Thai, Lao, Khmer, Burmese) break at zero-width spaces
that the writer sets, as the annex has it for a program without one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import pairwise

from studio.drawing.lettering.bidi import unicode_class
from studio.drawing.lettering.runs import LEFT_TO_RIGHT_MARK, RIGHT_TO_LEFT_MARK, SIGNS, reads_from_right

_SPACES = re.compile(r"[ \t\n\r\f\v]+")  # a no-break space is none of them
_HYPHENS = "-‐–—/"
"""After these a line is broken only where a word is wider than the line: V/vi and I–V–vi–IV stay whole."""


@lru_cache(maxsize=512)
def words(paragraph: str) -> tuple[tuple[str, ...], ...]:
    """What lines are made of: words, with the space after them, each in the parts at whose ends it may be broken
    if it fits no line."""
    from uniseg.linebreak import line_break_units

    found: list[list[str]] = []
    for unit in line_break_units(_SPACES.sub(" ", paragraph).strip(" ")):
        if found and found[-1][-1].endswith(tuple(_HYPHENS)):
            found[-1].append(unit)
        else:
            found.append([unit])
    return tuple(map(tuple, found))


def line_of(text: str, from_right: bool) -> str:
    """A line without the space at its end; where it would read the other way than its paragraph, with the mark that
    holds it to it."""
    line = text.strip(" \u200b")
    if not line or reads_from_right(line) == from_right:
        return line
    return (RIGHT_TO_LEFT_MARK if from_right else LEFT_TO_RIGHT_MARK) + line


def lines_of(lines: Sequence[str], from_right: bool) -> tuple[str, ...]:
    """The lines of a paragraph, each with the marks by which it reads alone as it does in the whole of it.

    A paragraph is resolved before it is broken (UAX #9, 3.4): a comma between two words that read against their
    paragraph goes with them (N1), also where a line ends at it.
    """
    if not lines:
        return ()
    goes_on = [False, *(_goes_on_against(lines, n, from_right) for n in range(1, len(lines))), False]
    return tuple(
        _marked(line, from_right, before, after)
        for line, (before, after) in zip(lines, pairwise(goes_on), strict=True)
    )


def _goes_on_against(lines: Sequence[str], number: int, from_right: bool) -> bool:
    """Whether what stands before a line and what it begins with both read against the paragraph."""
    before = _reads_from_right(reversed("".join(lines[:number])))
    after = _reads_from_right("".join(lines[number:]))
    return before == after == (not from_right)


def _reads_from_right(characters: Iterable[str]) -> bool | None:
    """Whether the first letter with a direction reads from the right; None where there is none."""
    for character in characters:
        kind = unicode_class(character)
        if kind in ("L", "R", "AL") or character in SIGNS:
            return kind in ("R", "AL")
    return None


def _marked(line: str, from_right: bool, before: bool, after: bool) -> str:
    text = line_of(line, from_right)
    own, against = RIGHT_TO_LEFT_MARK, LEFT_TO_RIGHT_MARK
    if not from_right:
        own, against = against, own
    if before and _reads_from_right(text.removeprefix(own)[:1]) is None:
        text = own + against + text.removeprefix(own)
    return text + against if after and _reads_from_right(text[-1:]) is None else text

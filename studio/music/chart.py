"""The chord chart of a song: which chord sounds from where to where, and how it is written.

Bars are written between ``|``: ``| A | F#m . D . | % | E/G# |``. ``read_bars`` has the rules.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from studio.music.chord import Chord
from studio.music.chord_reader import ChordError, is_no_chord, read_chord
from studio.music.pitch import NoteName
from studio.music.place import Span

if TYPE_CHECKING:
    from studio.music.meter import Meter
    from studio.music.songtime import SongTime

HOLD = "."
REPEAT = "%"
_UNREAD = (":", "/")  # repeat signs and beat slashes, which charts on paper have

# A token ends at a space or a bar line, save that a bracket is read whole: C7(♭9, ♯11), N. C., and (D|C), a
# polychord, whose bracket keeps its line from being a bar line. The latter holds no spaces: in | (Dm7 | G7) |,
# which paper has for chords that may be left out, the line is a bar line.
_POLYCHORD = r"(?<![^\s|])\((?:\([^()|]*\)|[^\s|()])+\|(?:\([^()|]*\)|[^\s|()])+\)"
_TOKEN = re.compile(rf"{_POLYCHORD}|[Nn]\. [Cc]\.|[Nn]o [Cc]hord|(?:\([^()|]*\)|[^\s|])+")
_BAR = re.compile(rf"(?:{_POLYCHORD}|[^|])+")
_LINE = re.compile(rf"{_POLYCHORD}|(?P<roomy>(?<!\S)\|+(?!\S))|(?P<tight>(?<=[^\s|])\|(?=[^\s|]))")


class ChartError(ValueError):
    """A chart that cannot be read. ``offset`` is the 0-based place in the text of what makes no sense.

    ``every`` holds all the mistakes of the text in their order, this one first, so that a person can mend
    them in one go.
    """

    def __init__(self, sentence: str, offset: int) -> None:
        super().__init__(sentence)
        self.offset = offset
        self.every: tuple[ChartError, ...] = (self,)


@dataclass(frozen=True, slots=True)
class ChordAt:
    """A chord where it sounds, in quarter notes; ``chord`` is None where the chart says N.C. (no chord)."""

    start: Fraction
    length: Fraction
    chord: Chord | None

    @property
    def end(self) -> Fraction:
        """Where it stops, in quarter notes."""
        return self.start + self.length

    @property
    def span(self) -> Span:
        """The stretch of the song that it covers."""
        return Span(self.start, self.end)


@dataclass(frozen=True, slots=True)
class Chart:
    """The chords of a song in their order; they do not overlap, but may leave gaps."""

    chords: tuple[ChordAt, ...]

    def at(self, quarters: Fraction) -> ChordAt | None:
        """The chord that sounds at a moment; None in a gap, before the first or after the last."""
        found = bisect_right(self.chords, quarters, key=lambda chord: chord.start) - 1
        return self.chords[found] if found >= 0 and quarters < self.chords[found].end else None

    def within(self, span: Span) -> tuple[ChordAt, ...]:
        """The chords that sound in a span, cut to it."""
        first = max(bisect_right(self.chords, span.start, key=lambda at: at.start) - 1, 0)
        last = bisect_left(self.chords, span.end, key=lambda at: at.start)
        shared = ((at.span.intersection(span), at.chord) for at in self.chords[first:last])
        return tuple(ChordAt(part.start, part.length, chord) for part, chord in shared if part is not None)


@dataclass(frozen=True, slots=True)
class _Token:
    text: str
    offset: int


def read_bars(text: str, start_bar: int, time: SongTime) -> tuple[ChordAt, ...]:
    """Read bars of chords, the first of them being bar ``start_bar``; exact in quarter notes.

    - Bars stand between ``|``; the outer bar lines may be left out, ``||`` is one bar line.
    - The tokens of a bar share it equally. One token fills it; as many tokens as beats are a beat each. Any
      other number must give each token a whole number of half beats (of eighths in 6/8, 9/8 and 12/8): two or
      eight in 4/4 are read, three are refused, because a third of a bar is hardly ever what was meant.
    - ``.`` holds the chord before it for one more token, across the bar line too.
    - ``%`` alone repeats the bar before it; ``N.C.`` is no chord.
    - A chord written again is struck again: ``A A`` and ``| A | A |`` are two events.
    - ``/B`` is the chord before it, struck again over the bass B.
    - ``(D|C)`` is a polychord, D over C. Where most bar lines have room around them, ``D|C`` is refused,
      since it might be meant as either.

    Raises ChartError with the place of the first mistake; its ``every`` has them all.
    """
    found: list[ChordAt] = []
    mistakes = _unclear_lines(text)
    before: tuple[_Token, ...] = ()
    wrong = False
    for number, (tokens, offset) in enumerate(_bars(text), start_bar):
        repeats = len(tokens) == 1 and tokens[0].text == REPEAT and before != ()
        if repeats and wrong:  # its mistakes are told already, at the bar that it repeats
            continue
        try:
            if repeats:
                tokens = tuple(_Token(token.text, tokens[0].offset) for token in before)
            _read_bar(tokens, offset, time.bars(number, number), time.meter(number), found)
        except ChartError as mistake:
            mistakes += mistake.every
            wrong = True
        else:
            wrong = False
        before = tokens
    if mistakes:
        raise _all_of(sorted(mistakes, key=lambda mistake: mistake.offset))
    if not found:
        raise ChartError("There are no chords here: write bars, as | A | F#m . D . |.", 0)
    return tuple(found)


def _bars(text: str) -> Iterator[tuple[tuple[_Token, ...], int]]:
    """The tokens of each bar with the offset where the bar starts.

    A blank before the first line or after the last is no bar, and nothing at all between two lines is a
    double bar line, also where a new line of text begins with one; blank paper between two lines is a bar
    that someone forgot to fill.
    """
    for bar in _BAR.finditer(text):
        tokens = tuple(_Token(token[0], token.start()) for token in _TOKEN.finditer(text, *bar.span()))
        if tokens or (bar.start() > 0 and bar.end() < len(text) and "\n" not in bar[0]):
            yield tokens, bar.start()


def _read_bar(
    tokens: tuple[_Token, ...], offset: int, span: Span, meter: Meter, found: list[ChordAt]
) -> None:
    if not tokens:
        raise ChartError("This bar is empty: write a chord, % to repeat the bar before it, or N.C.", offset)
    mistakes = [_unread(token) for token in tokens if token.text in _UNREAD]
    if mistakes:
        raise _all_of(mistakes)
    length = _token_length(tokens, span, meter)
    for place, token in enumerate(tokens):
        start = span.start + place * length
        try:
            if token.text == HOLD:
                _hold(found, start, length, token, told=bool(mistakes))
            else:
                found.append(ChordAt(start, length, _read_token(token, found, alone=len(tokens) == 1)))
        except ChartError as mistake:
            mistakes.append(mistake)
    if mistakes:
        raise _all_of(mistakes)


def _all_of(mistakes: list[ChartError]) -> ChartError:
    """The first mistake, with all of them in it."""
    mistakes[0].every = tuple(mistakes)
    return mistakes[0]


def _unread(token: _Token) -> ChartError:
    sentence = f"“{token.text}” is not read in a chart: write repeated bars out, and . where a chord goes on."
    return ChartError(sentence, token.offset)


def _token_length(tokens: tuple[_Token, ...], span: Span, meter: Meter) -> Fraction:
    pulse = meter.beat / (3 if meter.compound else 2)
    length = span.length / len(tokens)
    if len(tokens) > 1 and (length / pulse).denominator != 1:
        beats = span.length / meter.beat
        raise ChartError(
            f"{len(tokens)} chords cannot share a bar of {beats} beats evenly: write one sign for each beat,"
            " with . where the chord goes on.",
            tokens[0].offset,
        )
    return length


def _hold(found: list[ChordAt], start: Fraction, length: Fraction, token: _Token, told: bool) -> None:
    if found and found[-1].end == start:
        held = found[-1]
        found[-1] = ChordAt(held.start, held.length + length, held.chord)
    elif not told:
        raise ChartError("There is no chord before this . to hold on to.", token.offset)


def _unclear_lines(text: str) -> list[ChartError]:
    """Lines that touch the chords on both sides, in a chart most of whose bar lines have room: | A | D|C | G |."""
    lines = list(_LINE.finditer(text))
    tight = [line.start() for line in lines if line["tight"]]
    if len(tight) >= sum(line["roomy"] is not None for line in lines):
        return []
    sentence = (
        "This | may be a bar line or set a chord over another: write A | D for two bars, (A|D) for one chord."
    )
    return [ChartError(sentence, start) for start in tight]


def _read_token(token: _Token, found: list[ChordAt], alone: bool) -> Chord | None:
    if token.text == REPEAT:
        sentence = "There is no bar before this % to repeat." if alone else "A % fills a bar of its own."
        raise ChartError(sentence, token.offset)
    if is_no_chord(token.text):
        return None
    if token.text.startswith("/"):
        return _over_bass(token, found)
    try:
        return read_chord(token.text)
    except ChordError as error:
        raise ChartError(str(error), token.offset + error.position) from error


def _over_bass(token: _Token, found: list[ChordAt]) -> Chord:
    """The chord before a bass that stands alone, over that bass: A /G♯ is A A/G♯."""
    before = found[-1].chord if found else None
    if before is None:
        raise ChartError("There is no chord before this bass for it to carry.", token.offset)
    try:
        bass = NoteName.parse(token.text[1:])
    except ValueError:
        sentence = f"“{token.text}” is not a bass: a slash that stands alone carries one note, as /G♯."
        raise ChartError(sentence, token.offset + 1) from None
    return Chord.of(before.root, before.quality, before.changes, bass, before.upper)

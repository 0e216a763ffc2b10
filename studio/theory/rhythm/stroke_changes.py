"""Stroke by stroke: what each line of the kit does in one groove and not in another.

Closed and open strokes of the hi-hat are one line, since they are one instrument. Nothing is left out here: a ghost
note that comes or goes, an accent, a hat that opens are changes like any other. `difference` puts them into words,
and a picture that marks `Strokes.marked` and `Strokes.gone` marks all that the words speak of.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from studio.music.groove import Groove, Touch
from studio.music.kit import HATS

Places = tuple[Fraction, ...]

HAT_LINE = "hats"
"""The line on which the hi-hats are struck."""

_LOUDNESS: Mapping[Touch, int] = {"ghost": 0, "plain": 1, "accent": 2}


@dataclass(frozen=True, slots=True)
class Strokes:
    """What becomes of the strokes of one line; places count bars.

    ``added`` and ``left`` are strokes, ghost notes apart, that come where nothing was and go where nothing stays;
    ``louder`` are ghost notes that become strokes and ``softer`` strokes that become ghost notes; ``ghosts`` are
    ghost notes that come, ``ghosts_left`` those that go; ``accents`` are strokes that gain or lose one; ``opened``
    and ``closed`` are strokes of the hat that both grooves have.
    """

    was: Places
    now: Places
    added: Places
    left: Places
    louder: Places
    softer: Places
    ghosts: Places
    ghosts_left: Places
    accents: Places
    opened: Places
    closed: Places

    @property
    def marked(self) -> frozenset[Fraction]:
        """The places at which the second groove strikes otherwise than the first."""
        touched = (*self.louder, *self.softer, *self.accents, *self.opened, *self.closed)
        return frozenset((*self.added, *self.ghosts, *touched))

    @property
    def gone(self) -> frozenset[Fraction]:
        """The places at which the first groove strikes and the second does not."""
        return frozenset((*self.left, *self.ghosts_left))


@dataclass(frozen=True, slots=True)
class _Struck:
    loudness: int
    open: bool


def line_of(voice: str) -> str:
    """The line that a voice of the kit is struck on."""
    return HAT_LINE if voice in HATS else voice


def stroke_changes(before: Groove, after: Groove, accents: bool = True) -> dict[str, Strokes]:
    """The changes on each line that either groove has, both gone round until they fill the same bars.

    ``accents`` says whether it counts that a stroke is accented.
    """
    bars = lcm(before.bars, after.bars)
    lines = dict.fromkeys(line_of(voice) for voice in (*before.voices, *after.voices))
    return {line: _line(_struck(before, line, bars), _struck(after, line, bars), accents) for line in lines}


def _line(was: dict[Fraction, _Struck], now: dict[Fraction, _Struck], accents: bool) -> Strokes:
    both = was.keys() & now.keys()

    def where(of: Iterable[Fraction], true: Callable[[Fraction], bool]) -> Places:
        return tuple(sorted(at for at in of if true(at)))

    return Strokes(
        was=where(was, lambda at: was[at].loudness > 0),
        now=where(now, lambda at: now[at].loudness > 0),
        added=where(now, lambda at: at not in was and now[at].loudness > 0),
        left=where(was, lambda at: at not in now and was[at].loudness > 0),
        louder=where(both, lambda at: was[at].loudness == 0 < now[at].loudness),
        softer=where(both, lambda at: now[at].loudness == 0 < was[at].loudness),
        ghosts=where(now, lambda at: at not in was and now[at].loudness == 0),
        ghosts_left=where(was, lambda at: at not in now and was[at].loudness == 0),
        accents=where(both, lambda at: accents and {was[at].loudness, now[at].loudness} == {1, 2}),
        opened=where(both, lambda at: now[at].open and not was[at].open),
        closed=where(both, lambda at: was[at].open and not now[at].open),
    )


def _struck(groove: Groove, line: str, bars: int) -> dict[Fraction, _Struck]:
    """The strokes of a line: of two at once the louder counts, and an open hat is open."""
    found: dict[Fraction, _Struck] = {}
    for voice, hits in groove.lines:
        if line_of(voice) != line:
            continue
        for hit in hits:
            for start in range(0, bars, groove.bars):
                old = found.get(hit.at + start, _Struck(0, False))
                loudness = max(old.loudness, _LOUDNESS[hit.touch])
                found[hit.at + start] = _Struck(loudness, old.open or voice == "open hat")
    return found

"""What a part plays over a stretch of song, as a value."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio.music.chord import Chord
from studio.music.place import Span

FigureKind = Literal[
    "",
    "arpeggio",
    "broken chord",
    "bass and chords",
    "block chords",
    "power chords",
    "octaves",
    "parallel lines",
    "repeated note",
    "scale run",
    "walking line",
    "line",
]
Direction = Literal["", "rising", "falling", "rising and falling", "falling and rising"]


@dataclass(frozen=True, slots=True)
class Figure:
    """The figure of one part or one hand over a span.

    ``kind`` is "" where nothing plays or what plays is no plain figure. ``staff`` is 1 for the right hand, 2 for
    the left, and 0 for a part that is written on one staff. ``chords`` are those that the figure spells or strikes,
    in order, repetitions joined. ``order`` holds, for arpeggios and broken chords, the degrees of the smallest
    repeating unit as they follow ("1", "5", "9", "♭3"); ``times`` is how often it comes. ``name`` is the trade's
    name beyond the kind: "Alberti bass", "thirds", "chromatic", "shuffle", "oom-pah". ``sureness`` is 0 to 1, a
    judgement.
    """

    span: Span
    kind: FigureKind
    reason: str
    sureness: float
    staff: int = 0
    chords: tuple[Chord, ...] = ()
    order: tuple[str, ...] = ()
    direction: Direction = ""
    times: int = 1
    name: str = ""
    runner_up: str = ""

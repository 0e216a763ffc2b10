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

    ``kind`` is "" where nothing plays or what plays is no plain figure. ``staff`` is that of the notes, 0 if
    they are of both. ``chords`` are those that the figure spells or strikes, in order, repetitions joined.
    ``order`` holds, for arpeggios and broken chords, the degrees of the smallest repeating unit as they follow,
    counted on past the octave ("1", "♭3", "5", "8", "♭10"); ``times`` is how often it comes. ``name`` is the
    trade's name beyond the kind: "Alberti bass", "thirds", "chromatic", "shuffle". ``sureness`` is 0 to 1, a judgement.
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

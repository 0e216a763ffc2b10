"""Chords side by side with their voices as data, and at what height each note stands."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, pairwise

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.symbols import SymbolWords

APART = 4.4
"""Units from the middle of one name to the next where both sound at once."""

STEPS = (0.0, 2.6, 3.7, 4.4, 4.9, 5.3)
"""Units between two notes that do not sound at once, by half steps; further apart they lie no wider."""


@dataclass(frozen=True)
class VoiceNote:
    """A note by its name and its MIDI number."""

    name: str
    midi: int


@dataclass(frozen=True)
class Way:
    """A voice from one chord's note to the next one's, as MIDI numbers."""

    start: int
    end: int

    @property
    def semitones(self) -> int:
        """Half steps; down is negative."""
        return self.end - self.start


@dataclass(frozen=True)
class Column:
    """A chord: its symbol, its notes from low to high, and how they go on to the next: the ways, what is said
    of them (in full, and shorter), and a motion worth a mark: "contrary" of the outer voices, "parallel fifths"."""

    symbol: SymbolWords
    notes: tuple[VoiceNote, ...]
    ways: tuple[Way, ...] = ()
    said: tuple[str, ...] = ()
    motion: str = ""


@dataclass(frozen=True)
class Voices:
    """The chords, the canvas that they are composed for, and the pages: each from its first chord to its last,
    which is the first of the next page, so that no way is lost. `tallest` is the most units that it asks for, where
    it can do with less."""

    canvas: CanvasSize
    columns: tuple[Column, ...]
    pages: tuple[tuple[int, int], ...]
    tallest: float = 240.0


@dataclass(frozen=True)
class Led:
    """Which chord sounds now, None before, between and after; after which chord it is that none sounds; and whether
    the one that sounds is `alone`, as the next is not heard after it."""

    now: int | None = None
    after: int | None = None
    alone: bool = False


def page_of(content: Voices, look: Led) -> int:
    """The page that shows what sounds: of two, the one on which it goes on."""
    chord = look.now if look.now is not None else look.after or 0
    return [n for n, (first, last) in enumerate(content.pages) if first <= chord <= last][-1]


def heights(columns: tuple[Column, ...]) -> dict[int, float]:
    """Units above the lowest note at which each MIDI number stands: the same in all columns, so that a common tone
    is level; apart by pitch, and so far apart that names that sound at once do not touch."""
    found = sorted({note.midi for column in columns for note in column.notes})
    together = {
        pair for column in columns for pair in combinations(sorted(note.midi for note in column.notes), 2)
    }
    heights: dict[int, float] = {}
    for place, midi in enumerate(found):
        nearest = found[place - 1] if place else midi
        step = STEPS[min(midi - nearest, len(STEPS) - 1)]
        least = [heights[lower] + APART for lower in found[:place] if (lower, midi) in together]
        heights[midi] = max([heights.get(nearest, 0.0) + step, *least])
    return heights


def spelled(column: Column, midi: int) -> str:
    """What a chord calls its note of that number."""
    return next(note.name for note in column.notes if note.midi == midi)


def ways_between(columns: tuple[Column, ...]) -> list[tuple[int, Way]]:
    """Each way with the number of the column that it leaves; the last column's lead off the page."""
    return [(n, way) for n, (column, _) in enumerate(pairwise(columns)) for way in column.ways]

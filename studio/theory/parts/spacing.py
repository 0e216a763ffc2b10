"""How close the notes of a chord lie.

Spacing, from low to high:

- ``close``: all notes lie within an octave. ``open``: they do not (any harmony textbook; from memory).
- ``close over the bass``: the bass stands apart, and the notes above it are close with no chord tone between
  neighbours left out; choral writing calls this close structure, keyboard players close position over a bass.
- ``drop 2``, ``drop 3``, ``drop 2 and 4``: four different tones of a sixth or seventh chord that are close once
  the named voices, counted from the top, are put up an octave again (any book on jazz arranging; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from studio.music.chord import Chord
from studio.music.pitch import Pitch

Spacing = Literal["", "close", "close over the bass", "open", "drop 2", "drop 3", "drop 2 and 4"]

_DROPS: tuple[tuple[Spacing, tuple[int, ...]], ...] = (
    ("drop 2", (2,)),
    ("drop 3", (3,)),
    ("drop 2 and 4", (2, 4)),
)


def spacing(pitches: Sequence[Pitch], chord: Chord | None = None) -> Spacing:
    """How close pitches lie, "" for fewer than two; the chord tells whether a tone is left out between two."""
    heights = sorted({pitch.midi for pitch in pitches})
    if len(heights) < 2:
        return ""
    if heights[-1] - heights[0] <= 12:
        return "close"
    if chord is None or {height % 12 for height in heights} <= _tones_below(chord, 9):
        for name, voices in _DROPS:
            if _is_drop(heights, voices):
                return name
    upper = heights[1:]
    if len(upper) > 2 and upper[-1] - upper[0] <= 12 and not _leaves_out(upper, heights, chord):
        return "close over the bass"
    return "open"


def _tones_below(chord: Chord, number: int) -> set[int]:
    """The pitch classes of a chord's own tones below a 9 or another number, without a foreign bass."""
    return {(chord.root.pc + tone.semitones) % 12 for tone in chord.tones if tone.number < number}


def _is_drop(heights: Sequence[int], voices: tuple[int, ...]) -> bool:
    """Whether four notes are a close chord with these voices, counted from the top, an octave lower."""
    if len(heights) != 4 or len({height % 12 for height in heights}) != 4:
        return False
    dropped = [*heights[: len(voices)]]
    close = sorted([*heights[len(voices) :], *(height + 12 for height in dropped)])
    places = sorted(4 - close.index(height + 12) for height in dropped)
    return close[-1] - close[0] < 12 and tuple(places) == voices


def _leaves_out(upper: Sequence[int], heights: Sequence[int], chord: Chord | None) -> bool:
    """Whether a chord tone would fit between two neighbours."""
    pcs = {height % 12 for height in heights} if chord is None else _tones_below(chord, 14)
    between = (note for one, two in pairwise(upper) for note in range(one + 1, two))
    return any(note % 12 in pcs for note in between)

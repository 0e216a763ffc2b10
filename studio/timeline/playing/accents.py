"""How hard a key is struck, by where it stands in its bar.

First beats lean a little, what falls between the beats is lighter: enough to feel the bar, not enough to draw the
ear from the notes (common practice).
"""

from __future__ import annotations

from fractions import Fraction

from studio.music.songtime import SongTime

FIRST = 0.78
"""On the first beat of a bar."""
BEAT = 0.7
"""On any other counted beat, and for what stands in no bar."""
BETWEEN = 0.62
"""Between two beats."""


def loud_at(quarters: Fraction, time: SongTime) -> float:
    """How hard a key is struck at a moment of the song, from 0 to 1."""
    beat = time.place(quarters).beat
    if beat == 1:
        return FIRST
    return BEAT if beat.denominator == 1 else BETWEEN

"""Melodic intervals by their short names: M2, m3, P4, A4, d5, with the octaves counted in."""

from __future__ import annotations

from studio.music.pitch import NATURAL_SEMITONES, Pitch

_PERFECT = (0, 3, 4)
"""Letters, less whole octaves, of the intervals that are perfect: unison, fourth, fifth."""


def interval_name(one: Pitch, two: Pitch) -> str:
    """The interval between two pitches, whichever is higher: "M3", "P8", "m10", "AA4"; "P1" for the same note.

    Letters decide the number, half steps the quality: C to E♭ is m3, C to D♯ is A2. A plain interval is that of
    the major scale (M or P); m and d are narrower, A is wider (any textbook of music theory).

    >>> interval_name(Pitch.parse("A4"), Pitch.parse("E#5")), interval_name(Pitch.parse("C5"), Pitch.parse("B4"))
    ('A5', 'm2')
    """
    low, high = sorted((one, two), key=lambda pitch: (pitch.height, pitch.midi))
    letters, half_steps = high.height - low.height, high.midi - low.midi
    octaves, step = divmod(letters, 7)
    wider = half_steps - 12 * octaves - NATURAL_SEMITONES[step]
    return f"{_quality(wider, perfect=step in _PERFECT)}{letters + 1}"


def _quality(wider: int, perfect: bool) -> str:
    """By half steps beyond the interval of the major scale."""
    if wider > 0:
        return "A" * wider
    if perfect:
        return "P" if wider == 0 else "d" * -wider
    return ("M", "m")[-wider] if wider >= -1 else "d" * (-wider - 1)

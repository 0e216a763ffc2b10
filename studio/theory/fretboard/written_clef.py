"""The clef that players of a tuning read."""

from __future__ import annotations

from typing import Literal

from studio.theory.fretboard.tuning import Tuning

_FEWEST_OF_GUITAR = 6
_GUITAR_FROM, _GUITAR_TO = 33, 45
"""MIDI notes between which the lowest string of a guitar lies: A1 of a baritone, A2 of a terz or a high tuning."""

_LOWEST_OF_BASS, _HIGHEST_OF_BASS = 33, 52
"""A bass begins at A1 or lower, and its highest string is E3 at most."""

_SMALL_FROM = 50
"""Instruments whose strings all lie from D3 up (ukuleles, mandolin, violin) are read where they sound."""


def usual_clef(tuning: Tuning) -> Literal["treble", "treble 8vb", "bass 8vb"] | None:
    """Guitars and basses are written an octave above their sound, which an 8 below the clef says; None if unsure.

    Common practice, as any handbook of orchestration has it. The capo changes nothing.

    >>> from studio.theory.fretboard.named_tunings import TUNINGS
    >>> usual_clef(TUNINGS["drop D"]), usual_clef(TUNINGS["bass"]), usual_clef(TUNINGS["mandolin"])
    ('treble 8vb', 'bass 8vb', 'treble')
    """
    heights = [string.midi for string in tuning.strings]
    low, high = min(heights), max(heights)
    if low <= _LOWEST_OF_BASS and high <= _HIGHEST_OF_BASS:
        return "bass 8vb"
    if len(heights) >= _FEWEST_OF_GUITAR and _GUITAR_FROM <= low <= _GUITAR_TO:
        return "treble 8vb"
    return "treble" if low >= _SMALL_FROM and not tuning.open_only else None

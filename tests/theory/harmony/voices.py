"""The sung parts of Monteverdi's madrigals as music21's corpus ships them, laid over their analyses."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

from studio.music.note import Note
from studio.music.pitch import NoteName, Pitch
from tests.theory.harmony.roman_text import Analysis

_BAR = Fraction(4)  # every madrigal of the corpus is in 4/4 or 2/2


def voices(analysis: Analysis) -> tuple[tuple[Note, ...], ...]:
    """The notes of each voice, highest voice first, at the onsets that the analysis counts."""
    import music21
    from music21 import converter

    score = converter.parse(Path(music21.__file__).parent / "corpus" / "monteverdi" / f"{analysis.work}.mxl")
    starts = {one.measure: one.onset for one in analysis.numerals if one.strength == 1.0}
    return tuple(_voice(part, starts) for part in score.parts)


def _start(measure: int, starts: dict[int, Fraction]) -> Fraction:
    """Where a measure begins: the analysis has no measures where the person wrote none, so count from the last."""
    known = max((other for other in starts if other <= measure), default=min(starts))
    return starts[known] + (measure - known) * _BAR


def _voice(part: Any, starts: dict[int, Fraction]) -> tuple[Note, ...]:
    notes: list[Note] = []
    for measure in part.getElementsByClass("Measure"):
        start = _start(measure.number, starts)
        for sung in measure.recurse().notes:
            length = Fraction(sung.quarterLength).limit_denominator(96)
            if sung.tie is not None and sung.tie.type in ("stop", "continue") and notes:
                notes[-1] = Note(notes[-1].onset, notes[-1].length + length, notes[-1].pitch)
                continue
            onset = start + Fraction(sung.getOffsetInHierarchy(measure)).limit_denominator(96)
            pitch = sung.pitches[-1]
            notes.append(Note(onset, length, Pitch(NoteName(pitch.step, int(pitch.alter)), pitch.octave)))
    return tuple(notes)

"""Naming a note that is no chord tone, by how it is approached and how it is left.

As harmony textbooks have them (Open Music Theory, "Embellishing tones"; named from memory): passing is step
and step on; neighbour is step and step back; suspension is held and steps down, retardation held and steps
up; anticipation sounds before its chord; appoggiatura is leap and step; escape is step and leap.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio.music.chord import Chord
from studio.music.pitch import Pitch

Motion = Literal["none", "same", "step up", "step down", "leap up", "leap down"]

_FIGURES = (8, 9, 3, 4, 5, 6, 7)
"""The figure of each letter distance above the bass."""


@dataclass(frozen=True, slots=True)
class Line:
    """A note in its line, over one chord.

    ``before`` and ``after`` are the nearest different pitches of the line, None after a rest or at its ends;
    ``prepared`` is whether the note sounded, as a chord tone, over ``chord_before`` and was held or
    repeated into this chord; ``resolves`` whether ``after`` is a tone of its own chord; ``goes_on`` whether
    the same pitch sounds on, as a chord tone, into ``chord_after`` at once.
    """

    pitch: Pitch
    chord: Chord
    before: Pitch | None
    after: Pitch | None
    chord_before: Chord | None
    chord_after: Chord | None
    prepared: bool
    resolves: bool
    goes_on: bool


def motion(start: Pitch | None, end: Pitch | None) -> Motion:
    """How a line moves: a step is the next letter, or at most two half steps."""
    if start is None or end is None:
        return "none"
    semitones = end.midi - start.midi
    if semitones == 0:
        return "same"
    step = abs(semitones) <= 2 or abs(end.height - start.height) == 1
    if step:
        return "step up" if semitones > 0 else "step down"
    return "leap up" if semitones > 0 else "leap down"


def name_non_chord_tone(line: Line) -> tuple[str, str]:
    """The kind ("suspension 4–3", "passing", …, or "non-chord tone") and one sentence that says why."""
    entered, left = motion(line.before, line.pitch), motion(line.pitch, line.after)
    note, came, goes = line.pitch.name, line.before and line.before.name, line.after and line.after.name
    if line.prepared:
        return _held(line, left)
    if line.goes_on and line.chord_after is not None:
        return "anticipation", f"{note} sounds before its chord, {line.chord_after.text}, has come."
    if entered.startswith("step") and left.startswith("step"):
        if entered == left:
            return "passing", f"{note} passes by step between {came} and {goes}."
        return "neighbour", f"{note} steps away from {came} and back."
    if not entered.startswith("step") and left.startswith("step") and line.resolves:
        leap = f"reached by leap from {came}" if line.before else "struck without preparation"
        return "appoggiatura", f"{note} is {leap} and steps to {goes}."
    if entered.startswith("step") and left.startswith("leap"):
        return "escape", f"{note} is reached by step from {came} and left by leap."
    return "non-chord tone", f"{note} is not a tone of {line.chord.text}."


def figures(pitch: Pitch, chord: Chord, move: int) -> tuple[int, int]:
    """The figures above the bass of a held note and of the step that resolves it: (4, 3), (9, 8), (7, 6)."""
    letters = (chord.bass or chord.root).interval_to(pitch.name)[0]
    first = _FIGURES[letters]
    if move > 0 and first == 9:
        first = 2
    return first, first + move


def _held(line: Line, left: Motion) -> tuple[str, str]:
    note = line.pitch.name
    source = f" from the {line.chord_before.text} chord" if line.chord_before is not None else ""
    if left in ("step down", "step up") and line.resolves and line.after is not None:
        kind, move = ("suspension", -1) if left == "step down" else ("retardation", 1)
        first, second = figures(line.pitch, line.chord, move)
        sentence = f"{note} is held over{source} and steps {left[5:]} to {line.after.name}, {first}–{second}."
        return f"{kind} {first}–{second}", sentence
    return "non-chord tone", f"{note} is held over{source} and does not resolve by step."

"""How a line moves from one note to the next: held, repeated, by step or by leap."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from studio.music.pitch import Pitch

MoveKind = Literal["none", "held", "repeated", "step", "leap"]
Direction = Literal["up", "down", ""]


@dataclass(frozen=True, slots=True)
class Move:
    """How a note is come to or left.

    ``pitch`` is the pitch at the other end, None at the end of a line or beyond a rest (``kind`` "none").
    ``semitones`` and ``letters`` are how far the line moves in the order of time, up positive. A repeated
    note is struck again; a held one sounds on under a new chord.
    """

    kind: MoveKind = "none"
    pitch: Pitch | None = None
    semitones: int = 0
    letters: int = 0

    @property
    def direction(self) -> Direction:
        """ "up", "down", or "" where the line does not move."""
        if self.kind not in ("step", "leap"):
            return ""
        return "up" if (self.semitones, self.letters) > (0, 0) else "down"

    @property
    def half_step(self) -> bool:
        """Whether the line moves by one half step."""
        return abs(self.semitones) == 1


STILL = Move()
"""No motion: the line starts or ends here."""


def move(start: Pitch | None, end: Pitch | None) -> Move:
    """How a line moves from one pitch to another; the same pitch counts as repeated.

    A step is the next letter, or at most two half steps however they are spelled: a line that goes from G♯
    to B♭ has moved by step to every ear, and so has one from A♭ to B in the minor scale.
    """
    if start is None or end is None:
        return STILL
    semitones, letters = end.midi - start.midi, end.height - start.height
    if semitones == 0:
        return Move("repeated", end)
    kind: MoveKind = "step" if abs(semitones) <= 2 or abs(letters) == 1 else "leap"
    return Move(kind, end, semitones, letters)


def came_from(start: Pitch | None, end: Pitch) -> Move:
    """The same motion, seen from the note that is reached: ``pitch`` is where the line came from."""
    motion = move(start, end)
    return Move(motion.kind, start, motion.semitones, motion.letters)

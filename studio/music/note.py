"""Written notes and the parts that hold them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from studio.music.pitch import Pitch
from studio.music.place import Span


@dataclass(frozen=True, slots=True)
class Note:
    """One written note; ties are already joined, so a held note is one note.

    ``onset`` is in quarter notes from bar 1 beat 1, ``length`` in quarter notes; ``staff`` is 1 for the
    upper staff or right hand and 2 for the lower staff or left hand.
    """

    onset: Fraction
    length: Fraction
    pitch: Pitch
    staff: int = 1

    @property
    def end(self) -> Fraction:
        """Where the note stops, in quarter notes."""
        return self.onset + self.length

    def sounds_at(self, quarters: Fraction) -> bool:
        """Whether it sounds at a moment, in quarter notes: from its onset up to its end."""
        return self.onset <= quarters < self.end

    def sounds_in(self, span: Span) -> bool:
        """Whether any of it sounds in a span."""
        return self.onset < span.end and span.start < self.end


@dataclass(frozen=True, slots=True)
class Part:
    """A named part with its notes in the order of the score."""

    name: str
    notes: tuple[Note, ...]

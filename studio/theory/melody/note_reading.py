"""What is said of one written note: a frozen value that facts and pictures take."""

from __future__ import annotations

from dataclasses import dataclass

from studio.music.chart import ChordAt
from studio.music.note import Note
from studio.music.place import Span
from studio.theory.melody.beats import Beat
from studio.theory.melody.degree import Degree, degree_over
from studio.theory.melody.motion import STILL, Move
from studio.theory.melody.scale_degree import NoteInKey


@dataclass(frozen=True, slots=True)
class NoteReading:
    """A note over one chord.

    A note that is held across a chord change has one reading for each chord; ``span`` is the stretch over
    which this one holds. ``kind`` is one of ``tone.KINDS``, a suspension or retardation with its figures
    ("suspension 4–3"); with "no chord", ``degree`` and ``chord_at`` are None. ``reason`` is one short
    sentence.

    ``traits`` say more of the kind: "accented", "chromatic", "double", "triple", "upper", "lower", "pushed",
    "tied over", "bass", "decorated", "rearticulated", "repeated", "chain". ``scale_degree`` is the note in its
    key, None where no key is given; ``approach`` and ``departure`` are how the note is come to and left; ``beat`` is
    where in its bar this reading starts, None where no song time is given; ``next_chord`` is the
    chord to which an early note belongs, None for all others. ``sureness`` runs from 0 to 1 and is a
    judgement (see ``tone.Tone``); ``runner_up`` is another defensible kind, or "".
    """

    note: Note
    chord_at: ChordAt | None
    degree: Degree | None
    kind: str
    reason: str
    span: Span
    traits: tuple[str, ...] = ()
    scale_degree: NoteInKey | None = None
    approach: Move = STILL
    departure: Move = STILL
    beat: Beat | None = None
    next_chord: ChordAt | None = None
    sureness: float = 1.0
    runner_up: str = ""

    @property
    def pushed(self) -> bool:
        """Whether the note comes early and is held into the chord to which it belongs.

        A note that belongs to both chords counts as pushed where it is struck off the beat.
        """
        return "pushed" in self.traits

    @property
    def next_degree(self) -> Degree | None:
        """What an early note is over the chord to which it belongs; None for all others."""
        if self.next_chord is None or self.next_chord.chord is None:
            return None
        return degree_over(self.note.pitch.name, self.next_chord.chord)

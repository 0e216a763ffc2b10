"""A note where it stands: the notes around it in its line, and the chords around it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from studio.music.chart import ChordAt
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.melody.chords_under import ChordsUnder, is_tone
from studio.theory.melody.lines import Lines
from studio.theory.melody.motion import Move, came_from, move

_AROUND = 3  # neighbours that are looked at on each side


@dataclass(frozen=True, slots=True)
class Around:
    """A neighbour of a note in its line: whether it is a tone of its own chord, or an early one of the next."""

    pitch: Pitch
    onset: Fraction
    is_tone: bool
    early: bool = False


class Setting:
    """One note of a line over one chord, with all that its name hangs on.

    ``earlier`` and ``later`` are the notes around it, nearest first; repetitions of this note and of each
    other are passed over. ``key`` is the key there, None where it is not known. Each of the rest is worked out
    when it is asked for.
    """

    def __init__(
        self, place: int, at: ChordAt, lines: Lines, chords: ChordsUnder, key: Key | None = None
    ) -> None:
        assert at.chord is not None
        self.place, self.at, self.lines, self.chords, self.key = place, at, lines, chords, key
        self.note: Note = lines.notes[place]
        self.pitch: Pitch = self.note.pitch
        self.chord: Chord = at.chord
        self.span = Span(max(self.note.onset, at.start), min(self.note.end, at.end))

    @cached_property
    def earlier(self) -> tuple[Around, ...]:
        return self._around(-1)

    @cached_property
    def later(self) -> tuple[Around, ...]:
        return self._around(1)

    def _around(self, step: int) -> tuple[Around, ...]:
        found: list[Around] = []
        place = self.lines.different(self.place, step)
        while place is not None and len(found) < _AROUND:
            note = self.lines.notes[place]
            chords = self.chords.under[place]
            own = chords[0 if step > 0 else -1] if chords else None  # the one on this side
            tone = is_tone(note.pitch, own)
            early = own is not None and not tone and Setting(place, own, self.lines, self.chords).goes_on
            found.append(Around(note.pitch, note.onset, tone, early))
            place = self.lines.different(place, step)
        return tuple(found)

    @cached_property
    def came(self) -> Move:
        """How the line comes to this pitch, from the nearest other one."""
        return came_from(self.earlier[0].pitch if self.earlier else None, self.pitch)

    @cached_property
    def goes(self) -> Move:
        """How the line leaves this pitch, for the nearest other one."""
        return move(self.pitch, self.later[0].pitch if self.later else None)

    @cached_property
    def resolves(self) -> bool:
        """Whether the line goes on to a tone of its chord."""
        return bool(self.later) and self.later[0].is_tone

    @cached_property
    def chord_before(self) -> ChordAt | None:
        return self.chords.beside(self.at, -1)

    @cached_property
    def chord_after(self) -> ChordAt | None:
        return self.chords.beside(self.at, 1)

    @cached_property
    def struck(self) -> bool:
        """Whether the note is struck over this chord, not held into it."""
        return self.note.onset >= self.at.start

    @cached_property
    def restruck(self) -> bool:
        """Whether the pitch is struck more than once before its line moves on."""
        return self.lines.run_first[self.place] != self.lines.run_last[self.place]

    @cached_property
    def prepared(self) -> bool:
        """Whether the pitch, a tone of the chord before, was held or struck again into this one."""
        if self.chord_before is None or not is_tone(self.pitch, self.chord_before):
            return False
        return self.lines.run(self.place)[0] < self.at.start

    @cached_property
    def early(self) -> Fraction:
        """How long before the next chord the note sounds over this one, in quarter notes."""
        return self.at.end - self.span.start

    @cached_property
    def goes_on(self) -> bool:
        """Whether the pitch is early: it sounds on, held or struck again, as a tone of the next chord.

        An early note is no longer than half of either chord, nor than two notes of the line's usual pace.
        """
        following = self.chord_after
        if following is None or not is_tone(self.pitch, following):
            return False
        if self.early > min(self.at.length, following.length) / 2:
            return False
        pace = self.lines.pace(self.place)
        if pace and self.early > 2 * pace:
            return False
        if self.note.end > following.start:
            return True
        other = self.lines.neighbour(self.place, 1)
        return other is not None and other.pitch.midi == self.pitch.midi and other.onset == following.start

    @cached_property
    def approach(self) -> Move:
        """How this reading's note is come to: held from the chord before, struck again, by step or leap."""
        if not self.struck:
            return Move("held", self.pitch)
        return self.lines.approach(self.place)

    @cached_property
    def departure(self) -> Move:
        """How it is left: held into the next chord, struck again, by step or leap."""
        if self.note.end > self.at.end:
            return Move("held", self.pitch)
        return self.lines.departure(self.place)

"""A part of the score: its notes, and notation of any of its bars."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from studio.music.note import Note, Part
from studio.music.place import Span
from studio.music.songtime import SongTime

ClefName = Literal["treble", "treble 8vb", "alto", "tenor", "bass", "bass 8vb"]


@dataclass(frozen=True)
class WrittenPart:
    """The notes of a part at sounding pitch, and what notation needs besides.

    `clefs` are those of staff 1 and, for a piano, staff 2. `signatures` are (from quarters, sharps or minus
    flats). `played` says that the lengths come from playing (MIDI) rather than from notation. `left_out` names what
    the score has besides and nothing here shows: grace notes, ornaments.
    """

    part: Part
    time: SongTime
    clefs: tuple[ClefName, ...] = ("treble",)
    signatures: tuple[tuple[Fraction, int], ...] = ((Fraction(0), 0),)
    played: bool = False
    left_out: tuple[str, ...] = ()

    def musicxml(self, span: Span, labels: Mapping[Note, str] | None = None) -> str:
        """MusicXML of the whole bars that a span touches, with clef, key and meter at the start.

        `labels` stand under their notes as lyrics. The <note> of ``part.notes[3]`` has the id ``n3``, and
        where it is tied on, its continuations have ``n3-t1``, ``n3-t2``.
        """
        from studio.project.engraving import engrave

        return engrave(self, span, labels or {})

    def clef(self, staff: int) -> ClefName:
        """The clef of a staff, counted from 1; a part that is called a guitar has the one that guitarists read.

        Guitars are written an octave above their sound, which the 8 below the clef says (common practice).
        """
        clef = self.clefs[staff - 1]
        words = re.findall(r"[a-z]+", self.part.name.lower())
        if len(self.clefs) > 1 or clef not in ("treble", "bass") or not {"guitar", "guitars"} & set(words):
            return clef
        return "bass 8vb" if "bass" in words else "treble 8vb"

    def signature(self, quarters: Fraction) -> int:
        """Sharps, or minus flats, at a moment."""
        return [
            sharps for start, sharps in self.signatures if start <= quarters or start == self.signatures[0][0]
        ][-1]

"""Chord symbols as values: root, quality, changes and bass, with the tones that they spell.

>>> from studio.music.chord_reader import read_chord
>>> chord = read_chord("F#m7b5/A")
>>> chord.text, [str(note) for note in chord.notes()]
('F♯m7♭5/A', ['F♯', 'A', 'C', 'E'])
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from studio.music.chord_printing import ChordDisplay, cut, printing_order, signed, written_out
from studio.music.chord_qualities import (
    ADDED,
    ALTERATIONS,
    LEFT_OUT,
    QUALITIES,
    SAME_AS,
    TENSIONS,
    WITH_THIRTEENTH,
)
from studio.music.chord_tones import Tone, stacked, with_upper
from studio.music.pitch import NoteName

__all__ = ["Chord", "ChordDisplay", "Tone", "Triad"]

Triad = Literal["major", "minor", "diminished", "augmented", "suspended", "power", "other"]


@dataclass(frozen=True, slots=True)
class Chord:
    """A chord symbol.

    ``quality`` is a name of ``QUALITIES``; ``changes`` are alterations ("♭9"), added tones ("add11") and
    tones left out ("no3"), in printing order; ``bass`` is the note after the slash, None when the root is
    lowest. ``upper`` is the chord over this one in a polychord: D|C is the chord C with D as its upper; the
    lower chord decides how it is read, and the upper one's tones join as tensions.

    Make one with ``Chord.of``, which puts every spelling of the same chord in one form, or with
    ``studio.music.chord_reader.read_chord``.
    """

    root: NoteName
    quality: str = ""
    changes: tuple[str, ...] = ()
    bass: NoteName | None = None
    upper: Chord | None = None

    def __post_init__(self) -> None:
        if self.quality not in QUALITIES:
            raise ValueError(f"“{self.quality}” is not a chord quality that this program knows.")
        if unknown := [change for change in self.changes if not _is_change(change)]:
            raise ValueError(f"“{unknown[0]}” is not a change that a chord symbol can carry.")
        if self.upper is not None and (self.upper.bass is not None or self.upper.upper is not None):
            raise ValueError("The upper chord of a polychord has no bass and no chord of its own above it.")

    @classmethod
    def of(
        cls,
        root: NoteName,
        quality: str = "",
        changes: Iterable[str] = (),
        bass: NoteName | None = None,
        upper: Chord | None = None,
    ) -> Chord:
        """The chord in its one form: changes in order and without doubles, plain names where there is one.

        C(add6) is C6, Cm(♭5) is C°, C/C is C, C9(add9) is C9.
        """
        quality, changes = _one_form(quality, changes)
        return cls(root, quality, changes, None if bass == root else bass, upper)

    @property
    def tones(self) -> tuple[Tone, ...]:
        """The tones from the root up, without a foreign bass; the upper chord of a polychord among them."""
        lower = stacked(self.quality, self.changes)
        return lower if self.upper is None else with_upper(lower, self.root, self.upper.notes())

    def notes(self) -> tuple[NoteName, ...]:
        """The spelled notes that sound, root first; a bass that is no chord tone stands before them."""
        spelled = tuple(self.root.transposed(tone.letters, tone.semitones) for tone in self.tones)
        return spelled if self.bass is None or self.bass_tone is not None else (self.bass, *spelled)

    @property
    def lowest(self) -> NoteName:
        """The note in the bass: the one after the slash, or else the root."""
        return self.bass or self.root

    @property
    def bass_tone(self) -> Tone | None:
        """The chord tone that lies in the bass; None if the bass is foreign to the chord."""
        distance = (self.lowest.pc - self.root.pc) % 12
        return next((tone for tone in self.tones if tone.semitones % 12 == distance), None)

    @property
    def pcs(self) -> frozenset[int]:
        """Pitch classes that sound, the bass among them."""
        return frozenset(note.pc for note in self.notes())

    @property
    def triad(self) -> Triad:
        """What the third and the fifth make; a chord without its third is "suspended" or "power".

        A major third with a flat fifth (C7♭5) still counts as major, as players hear a dominant.
        """
        degrees = {tone.degree for tone in self.tones}
        if "3" in degrees:
            return "augmented" if "♯5" in degrees and "♭5" not in degrees else "major"
        if "♭3" in degrees:
            return "diminished" if "♭5" in degrees else "minor"
        if "4" in degrees or "2" in degrees:
            return "suspended"
        return "power" if "5" in degrees else "other"

    @property
    def seventh(self) -> str:
        """The label of its seventh, "7", "♭7" or "♭♭7"; "" without one."""
        return next((tone.degree for tone in self.tones if tone.number == 7), "")

    @property
    def extension(self) -> str:
        """What is printed after the root and before the slash: "m7", "7sus4", "°7", "7(♭9♯11)"."""
        return signed(written_out(self.quality, self.changes))

    @property
    def text(self) -> str:
        """The symbol as it is printed; ``read_chord`` reads it back to an equal chord."""
        over = f"{self.upper.text}|" if self.upper is not None else ""
        bass = f"/{self.bass}" if self.bass is not None else ""
        return f"{over}{self.root}{self.extension}{bass}"

    @property
    def display(self) -> ChordDisplay:
        """The symbol cut up for typesetting: F♯m7♭5/A is F♯ · m · 7♭5 · A."""
        word, raised = cut(written_out(self.quality, self.changes))
        upper = self.upper.display if self.upper is not None else None
        return ChordDisplay(str(self.root), word, raised, str(self.bass or ""), upper)

    def transposed(self, letters: int, semitones: int) -> Chord:
        """The same chord from another root, bass and upper chord too; see ``NoteName.transposed``."""
        bass = None if self.bass is None else self.bass.transposed(letters, semitones)
        upper = None if self.upper is None else self.upper.transposed(letters, semitones)
        return Chord(self.root.transposed(letters, semitones), self.quality, self.changes, bass, upper)

    def __str__(self) -> str:
        return self.text


def _one_form(quality: str, changes: Iterable[str]) -> tuple[str, tuple[str, ...]]:
    pending = {_plainly(change, quality) for change in changes}
    while known := [change for change in pending if (quality, change) in SAME_AS]:
        change = min(known, key=printing_order)
        pending.remove(change)
        quality, _, kept = SAME_AS[quality, change].partition(" ")
        pending = {_plainly(change, quality) for change in (*pending, kept) if change}
    if "add13" in pending and quality in WITH_THIRTEENTH and pending & {"♭9", "♯9"}:
        pending.remove("add13")
        quality = WITH_THIRTEENTH[quality]
    altered = {change.lstrip("♭♯") for change in pending if change in ALTERATIONS}
    degrees = QUALITIES.get(quality, "").split()
    there = {*degrees, *(f"add{degree}" for degree in degrees if degree not in altered)}
    return quality, tuple(sorted(pending - there, key=printing_order))


def _plainly(change: str, quality: str) -> str:
    """A tension as its chord says it: added to a triad, altered over a sixth or a seventh.

    C(♭9) is Cadd♭9 and C7(add♭9) is C7♭9; in C9(add♭9) both ninths sound, and it stays.
    """
    degrees = QUALITIES.get(quality, "").split()
    tension = change.removeprefix("add")
    if tension not in TENSIONS:
        return change
    if not any(degree.lstrip("♭♯") in ("6", "7") for degree in degrees):
        return f"add{tension}"
    return change if tension.lstrip("♭♯") in degrees else tension


def _is_change(change: str) -> bool:
    if change.startswith("add"):
        return change[3:] in ADDED
    if change.startswith("no"):
        return change[2:] in LEFT_OUT
    return change in ALTERATIONS

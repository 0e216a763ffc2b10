"""Chord symbols as values: root, quality, changes and bass, with the tones that they spell.

>>> from studio.music.chord_reader import read_chord
>>> chord = read_chord("F#m7b5/A")
>>> chord.text, [str(note) for note in chord.notes()]
('F♯m7♭5/A', ['F♯', 'A', 'C', 'E'])
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from studio.music.chord_qualities import ADDED, ALTERATIONS, LEFT_OUT, QUALITIES, SAME_AS
from studio.music.pitch import NATURAL_SEMITONES, NoteName, accidental_value

Triad = Literal["major", "minor", "diminished", "augmented", "suspended", "power", "other"]

_QUALITY_PARTS = re.compile(r"(m(?!aj)|maj|dim|aug)?(.*)")


@dataclass(frozen=True, slots=True)
class Tone:
    """One tone of a chord, as counted from its root.

    ``degree`` is its label ("♭3", "9"); ``letters`` and ``semitones`` lie above the root and keep the octave:
    a 9 is 8 letters and 14 semitones up, a 2 is 1 letter and 2 semitones.
    """

    degree: str
    letters: int
    semitones: int

    @classmethod
    def of(cls, degree: str) -> Tone:
        """The tone with this label, as counted in the major scale: "♭7" is 6 letters and 10 semitones."""
        number = degree.lstrip("♭♯")
        octaves, step = divmod(int(number) - 1, 7)
        alter = accidental_value(degree[: len(degree) - len(number)])
        return cls(degree, 7 * octaves + step, 12 * octaves + NATURAL_SEMITONES[step] + alter)

    @property
    def number(self) -> int:
        """The label without its accidental: 7 for "♭7"."""
        return self.letters + 1


@dataclass(frozen=True, slots=True)
class ChordDisplay:
    """A chord symbol cut up for typesetting: root large, quality on the line, ``raised`` small and raised."""

    root: str
    quality: str
    raised: str
    bass: str


@dataclass(frozen=True, slots=True)
class Chord:
    """A chord symbol.

    ``quality`` is a name of ``QUALITIES``; ``changes`` are alterations ("♭9"), added tones ("add11") and
    tones left out ("no3"), in printing order; ``bass`` is the note after the slash, None when the root is
    lowest. Make one with ``Chord.of``, which puts every spelling of the same chord in one form, or with
    ``studio.music.chord_reader.read_chord``.
    """

    root: NoteName
    quality: str = ""
    changes: tuple[str, ...] = ()
    bass: NoteName | None = None

    def __post_init__(self) -> None:
        if self.quality not in QUALITIES:
            raise ValueError(f"“{self.quality}” is not a chord quality that this program knows.")
        if unknown := [change for change in self.changes if not _is_change(change)]:
            raise ValueError(f"“{unknown[0]}” is not a change that a chord symbol can carry.")

    @classmethod
    def of(
        cls, root: NoteName, quality: str = "", changes: Iterable[str] = (), bass: NoteName | None = None
    ) -> Chord:
        """The chord in its one form: changes in order and without doubles, plain names where there is one.

        C(add6) is C6, Cm(♭5) is Cdim, C/C is C.
        """
        pending = set(changes)
        if not _has_seventh_or_sixth(quality):
            pending = {f"add{change}" if _is_tension(change) else change for change in pending}
        while known := [change for change in pending if (quality, change) in SAME_AS]:
            change = min(known, key=_printing_order)
            quality = SAME_AS[quality, change]
            pending.remove(change)
        return cls(root, quality, tuple(sorted(pending, key=_printing_order)), None if bass == root else bass)

    @property
    def tones(self) -> tuple[Tone, ...]:
        """The tones from the root up, without a foreign bass."""
        return _tones(self.quality, self.changes)

    def notes(self) -> tuple[NoteName, ...]:
        """The spelled notes that sound, root first; a bass that is no chord tone stands before them."""
        spelled = tuple(self.root.transposed(tone.letters, tone.semitones) for tone in self.tones)
        return spelled if self.bass is None or self.bass_tone is not None else (self.bass, *spelled)

    @property
    def bass_tone(self) -> Tone | None:
        """The chord tone that lies in the bass; None if the bass is foreign to the chord."""
        bass = self.bass or self.root
        distance = (bass.pc - self.root.pc) % 12
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
        """What is printed after the root and before the slash: "m7", "7sus4", "add9", "7(♭9♯11)"."""
        return _suffix(self.quality, self.changes)

    @property
    def text(self) -> str:
        """The symbol as it is printed; ``read_chord`` reads it back to an equal chord."""
        bass = f"/{self.bass}" if self.bass is not None else ""
        return f"{self.root}{self.extension}{bass}"

    @property
    def display(self) -> ChordDisplay:
        """The symbol cut up for typesetting: F♯m7♭5/A is F♯ · m · 7♭5 · A."""
        match = _QUALITY_PARTS.fullmatch(self.extension)
        word, rest = (match[1] or "", match[2]) if match else ("", self.extension)
        return ChordDisplay(str(self.root), word, rest.replace("Maj", "maj"), str(self.bass or ""))

    def transposed(self, letters: int, semitones: int) -> Chord:
        """The same chord from another root, bass and all; see ``NoteName.transposed``."""
        bass = None if self.bass is None else self.bass.transposed(letters, semitones)
        return Chord(self.root.transposed(letters, semitones), self.quality, self.changes, bass)

    def __str__(self) -> str:
        return self.text


def _is_tension(change: str) -> bool:
    return change in ("♭9", "♯9", "♯11", "♭13")


def _has_seventh_or_sixth(quality: str) -> bool:
    return any(character in quality for character in "67") or quality[-1:] in ("9", "1", "3")


def _is_change(change: str) -> bool:
    if change.startswith("add"):
        return change[3:] in ADDED
    if change.startswith("no"):
        return change[2:] in LEFT_OUT
    return change in ALTERATIONS


def _printing_order(change: str) -> tuple[int, int]:
    if change.startswith("add"):
        return 1, ADDED.index(change[3:])
    if change.startswith("no"):
        return 2, LEFT_OUT.index(change[2:])
    return 0, ALTERATIONS.index(change)


@lru_cache(maxsize=4096)
def _tones(quality: str, changes: tuple[str, ...]) -> tuple[Tone, ...]:
    degrees = QUALITIES[quality].split()
    altered = [change for change in changes if change in ALTERATIONS]
    replaced = {change.lstrip("♭♯") for change in altered}
    kept = [degree for degree in degrees if degree not in replaced]
    added = [change[3:] for change in changes if change.startswith("add")]
    tones = {Tone.of(degree) for degree in (*kept, *altered, *added)}
    left_out = {int(change[2:]) for change in changes if change.startswith("no")}
    sounding = (tone for tone in tones if tone.number not in left_out)
    return tuple(sorted(sounding, key=lambda tone: (tone.letters, tone.semitones)))


@lru_cache(maxsize=4096)
def _suffix(quality: str, changes: tuple[str, ...]) -> str:
    if not changes:
        return quality
    alterations = "".join(change for change in changes if change in ALTERATIONS)
    words = [change for change in changes if change not in ALTERATIONS]
    if not words and quality[-1:].isdigit() and "sus" not in quality:
        return quality + alterations if len(changes) == 1 else f"{quality}({alterations})"
    if quality in ("", "m") and len(changes) == 1 and words[:1] and words[0].startswith("add"):
        return quality + words[0]
    return f"{quality}({','.join([alterations] * bool(alterations) + words)})"

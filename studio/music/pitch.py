"""Spelled notes: a letter, an accidental and, for a pitch, an octave.

Spelling is kept everywhere, because it carries meaning: G♯ leads up to A, A♭ leads down to G, and only the
letters tell a ♭6 from a ♯5.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from studio.music.key import Key

LETTERS = "CDEFGAB"
NATURAL_SEMITONES = (0, 2, 4, 5, 7, 9, 11)
"""Semitones above C of each natural letter, in the order of ``LETTERS``."""

FIFTHS_FROM_C = {"F": -1, "C": 0, "G": 1, "D": 2, "A": 3, "E": 4, "B": 5}
"""Place of each natural letter on the line of fifths; a sharp adds 7, a flat takes 7 away."""

_ACCIDENTALS = {"b": -1, "♭": -1, "#": 1, "♯": 1, "𝄫": -2, "𝄪": 2, "x": 2, "♮": 0}
_NOTE = re.compile(r"([A-G])([b♭#♯𝄫𝄪x♮]*)")
_PITCH = re.compile(r"([A-G][b♭#♯𝄫𝄪x♮]*)(-?\d+)")


def accidental_text(alter: int) -> str:
    """The accidental as it is printed: "" for natural, "♯", "♭", doubled for double accidentals."""
    return "♯" * alter if alter >= 0 else "♭" * -alter


def accidental_value(text: str) -> int:
    """How far the accidentals in ``text`` move a letter, in semitones: "♯" 1, "bb" −2, "" 0.

    Raises KeyError for a character that is no accidental.
    """
    return sum(_ACCIDENTALS[character] for character in text)


@dataclass(frozen=True, slots=True)
class NoteName:
    """A note without its octave: ``letter`` "A" to "G" and ``alter`` in semitones (♯ is 1, ♭♭ is −2)."""

    letter: str
    alter: int = 0

    def __post_init__(self) -> None:
        if len(self.letter) != 1 or self.letter not in LETTERS:
            raise ValueError(f"{self.letter!r} is not a note letter: the letters are A to G, in capitals.")

    @classmethod
    def parse(cls, text: str) -> NoteName:
        """Read "F#", "F♯", "Bb", "B♭♭" or "C"; raises ValueError with a plain sentence for anything else."""
        match = _NOTE.fullmatch(text.strip())
        if match is None:
            raise ValueError(f"“{text}” is not a note name: write a capital A to G, then ♯ or ♭ (# or b).")
        return cls(match[1], accidental_value(match[2]))

    @classmethod
    def from_fifths(cls, place: int) -> NoteName:
        """The note at a place on the line of fifths: … B♭ −2, F −1, C 0, G 1, D 2 …"""
        return cls("FCGDAEB"[(place + 1) % 7], (place + 1) // 7)

    @property
    def step(self) -> int:
        """Place of the letter in C D E F G A B, 0 to 6."""
        return LETTERS.index(self.letter)

    @property
    def pc(self) -> int:
        """Pitch class, 0 (C) to 11 (B)."""
        return (NATURAL_SEMITONES[self.step] + self.alter) % 12

    @property
    def fifths(self) -> int:
        """Place on the line of fifths, C is 0, one more for each fifth up."""
        return FIFTHS_FROM_C[self.letter] + 7 * self.alter

    def transposed(self, letters: int, semitones: int) -> NoteName:
        """This note moved by an interval: ``letters`` letters and ``semitones`` half steps, down if negative.

        A major third up is (2, 4); C moved so is E. The spelling follows the letters, so that the
        accidental is whatever makes the half steps right: G♯ up a major third is B♯.
        """
        octaves, step = divmod(self.step + letters, 7)
        natural = NATURAL_SEMITONES[step] + 12 * octaves - NATURAL_SEMITONES[self.step]
        return NoteName(LETTERS[step], self.alter + semitones - natural)

    def interval_to(self, other: NoteName) -> tuple[int, int]:
        """Letters (0 to 6) and semitones from this note up to ``other`` inside one octave.

        The semitones follow the letters, so they may be −1 (C up to C♭) or 12 (C up to B♯).
        """
        letters = (other.step - self.step) % 7
        natural = (NATURAL_SEMITONES[other.step] - NATURAL_SEMITONES[self.step]) % 12
        return letters, natural + other.alter - self.alter

    def __str__(self) -> str:
        return self.letter + accidental_text(self.alter)


@dataclass(frozen=True, slots=True)
class Pitch:
    """A note name in an octave, counted so that C4 is middle C (MIDI 60), as in scientific pitch notation."""

    name: NoteName
    octave: int

    @classmethod
    def parse(cls, text: str) -> Pitch:
        """Read "F#4", "B♭3" or "C-1"; raises ValueError with a plain sentence for anything else."""
        match = _PITCH.fullmatch(text.strip())
        if match is None:
            raise ValueError(f"“{text}” is not a pitch: write a note and its octave, as F♯4 or Bb3.")
        return cls(NoteName.parse(match[1]), int(match[2]))

    @classmethod
    def from_midi(cls, number: int, key: Key | None = None) -> Pitch:
        """The pitch of a MIDI note number, spelled as the key would.

        A note of the key keeps the key's name. Of the other notes, major keys take ♯4 and ♯1 (the leading
        notes of V and ii) and ♭3, ♭6 and ♭7 (the borrowed ones); minor keys take ♮3, ♮6, ♮7, ♯4 and ♭2.
        Without a key the notes are spelled as in C major.
        """
        tonic_fifths = 0 if key is None else key.tonic.fifths
        first = tonic_fifths - (5 if key is not None and key.mode == "minor" else 4)
        place = first + (number * 7 - first) % 12
        name = NoteName.from_fifths(place)
        octave = (number - NATURAL_SEMITONES[name.step] - name.alter) // 12 - 1
        return cls(name, octave)

    @property
    def midi(self) -> int:
        """MIDI note number; B♯3 and C4 are both 60."""
        return 12 * (self.octave + 1) + NATURAL_SEMITONES[self.name.step] + self.name.alter

    @property
    def height(self) -> int:
        """Staff position: letters above C0, so that a step is always 1 whatever the accidentals."""
        return 7 * self.octave + self.name.step

    def frequency(self, a4: float = 440.0) -> float:
        """Hertz in equal temperament, f = a4·2^((midi − 69)/12); A4 = 440 Hz is ISO 16."""
        return float(a4 * 2 ** ((self.midi - 69) / 12))

    def transposed(self, letters: int, semitones: int) -> Pitch:
        """This pitch moved by an interval, spelled by its letters; see ``NoteName.transposed``."""
        return Pitch(self.name.transposed(letters, semitones), self.octave + (self.name.step + letters) // 7)

    def __str__(self) -> str:
        return f"{self.name}{self.octave}"

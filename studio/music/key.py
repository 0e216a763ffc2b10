"""Keys: a tonic and a mode, with the scale and signature that follow from them."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from studio.music.pitch import NoteName

Mode = Literal["major", "minor"]

MAJOR_SCALE = (0, 2, 4, 5, 7, 9, 11)
"""Semitones of the major scale above its tonic."""
MINOR_SCALE = (0, 2, 3, 5, 7, 8, 10)
"""Semitones of the natural minor scale above its tonic."""

_KEY = re.compile(r"([A-Ga-g])([b♭#♯]{0,2})[\s-]*([Mm]ajor|[Mm]aj|ma|M|[Mm]inor|[Mm]in|mi|m)?")


@dataclass(frozen=True, slots=True)
class Key:
    """A major or minor key, as ``Key(NoteName("F", 1), "minor")``."""

    tonic: NoteName
    mode: Mode

    @classmethod
    def parse(cls, text: str) -> Key:
        """Read "F# minor", "A", "Bb major", "f#m", "Am", "C♯ minor".

        A small letter without a word is a minor key ("f#" is F♯ minor), as musicians write it.
        Raises ValueError with a plain sentence for anything else.
        """
        match = _KEY.fullmatch(text.strip())
        if match is None:
            raise ValueError(f"“{text}” is not a key: write a note and a mode, as “F# minor” or “Bb major”.")
        letter, accidentals, word = match[1], match[2], match[3] or ""
        small_alone = letter.islower() and not word
        minor = small_alone or word.lower() in ("minor", "min", "mi") or word == "m"
        return cls(NoteName.parse(letter.upper() + accidentals), "minor" if minor else "major")

    @property
    def signature(self) -> int:
        """Sharps (positive) or flats (negative) in the key signature."""
        return self.tonic.fifths - (3 if self.mode == "minor" else 0)

    def scale(self) -> tuple[NoteName, ...]:
        """The seven notes from the tonic up; natural minor for a minor key."""
        return _scale(self)

    @property
    def parallel(self) -> Key:
        """The key of the other mode on the same tonic: A minor for A major."""
        return Key(self.tonic, "minor" if self.mode == "major" else "major")

    @property
    def relative(self) -> Key:
        """The key of the other mode with the same signature: F♯ minor for A major."""
        if self.mode == "major":
            return Key(self.tonic.transposed(-2, -3), "minor")
        return Key(self.tonic.transposed(2, 3), "major")

    def above(self, note: NoteName) -> int:
        """Half steps from the tonic up to a note, 0 to 11."""
        return (note.pc - self.tonic.pc) % 12

    def transposed(self, letters: int, semitones: int) -> Key:
        """This key moved by an interval, its tonic spelled by the letters."""
        return Key(self.tonic.transposed(letters, semitones), self.mode)

    def __str__(self) -> str:
        return f"{self.tonic} {self.mode}"


def key_at(keys: Sequence[tuple[Fraction, Key]], quarters: Fraction) -> Key | None:
    """The key that holds at a moment, of (quarters, key) ascending; the first one also before its start.

    None where there are no keys.
    """
    if not keys:
        return None
    return keys[max(bisect_right(keys, quarters, key=lambda start: start[0]) - 1, 0)][1]


@lru_cache(maxsize=256)
def _scale(key: Key) -> tuple[NoteName, ...]:
    steps = MAJOR_SCALE if key.mode == "major" else MINOR_SCALE
    return tuple(key.tonic.transposed(letters, semitones) for letters, semitones in enumerate(steps))

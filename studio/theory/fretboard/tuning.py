"""Tunings: the open strings of an instrument, from the side of the low string to the other side.

Strings are counted from 0 in this order everywhere in this room, and pitches are sounding pitches: a guitar's
low string is E2, though its part is written an octave higher.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from studio.music.pitch import NoteName, Pitch

HIGHEST_CAPO = 12
"""Above the octave a capo leaves no neck to play on."""

FEWEST_STRINGS, MOST_STRINGS = 1, 12

_COURSES = 8
"""Strings from which on pairs of one pitch class are the courses of a 12-string guitar or of a mandolin."""

_PITCH = re.compile(r"(?P<letter>[A-Ga-g])(?P<accidentals>[b♭#♯]*)(?P<octave>-?\d+)?")
_WORD = re.compile(r"[^\s,]+")


@dataclass(frozen=True, slots=True)
class Tuning:
    """Open strings as they sound, without the capo and with it.

    ``strings`` are the open strings without a capo. ``capo`` is the fret that it clamps, 0 for none; frets are
    counted from it, as players do. ``reach`` is how many frets in a row a hand covers below the fifth fret, and
    ``open_only`` are the strings that are never pressed (the short fifth string of a banjo).
    """

    name: str
    strings: tuple[Pitch, ...]
    capo: int = 0
    reach: int = 4
    open_only: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        if not FEWEST_STRINGS <= len(self.strings) <= MOST_STRINGS:
            raise ValueError(
                f"A tuning has 1 to {MOST_STRINGS} strings, and this one has {len(self.strings)}."
            )
        if not 0 <= self.capo <= HIGHEST_CAPO:
            raise ValueError(
                f"A capo sits on fret 1 to {HIGHEST_CAPO}, or 0 for none; this one is on {self.capo}."
            )

    @property
    def sounding(self) -> tuple[Pitch, ...]:
        """What the open strings sound with the capo on."""
        if not self.capo:
            return self.strings
        return tuple(Pitch.from_midi(string.midi + self.capo) for string in self.strings)

    @property
    def midi(self) -> tuple[int, ...]:
        """The open strings with the capo on, as MIDI note numbers."""
        return tuple(string.midi + self.capo for string in self.strings)

    @property
    def reentrant(self) -> bool:
        """Whether the strings do not rise from one to the next, so that the first is not the lowest."""
        return any(one.midi > two.midi for one, two in zip(self.strings, self.strings[1:], strict=False))

    @property
    def text(self) -> str:
        """The open strings without the capo, as ``read_tuning`` reads them: "E2 A2 D3 G3 B3 E4"."""
        return " ".join(str(string) for string in self.strings)

    def with_capo(self, fret: int) -> Tuning:
        """The same strings with a capo on this fret; ValueError if no capo can sit there."""
        return replace(self, capo=fret)

    def transposed(self, semitones: int) -> Tuning:
        """All strings tuned up by some half steps, or down if negative."""
        strings = tuple(Pitch.from_midi(string.midi + semitones) for string in self.strings)
        return replace(self, strings=strings)

    def __str__(self) -> str:
        """As a sentence names it: "standard tuning", "DADGAD tuning with a capo on fret 2"."""
        return f"{self.name} tuning" + (f" with a capo on fret {self.capo}" if self.capo else "")


def read_written_tuning(text: str, name: str = "") -> Tuning:
    """A tuning from its open strings, low string first: "E2 A2 D3 G3 B3 E4", commas allowed.

    Its name is the text itself unless one is given. A course of two strings counts as one. Raises ValueError, in
    one plain sentence with the place of the string that makes no sense.

    >>> read_written_tuning("D2 A2 D3 F#3 A3 D4").text
    'D2 A2 D3 F♯3 A3 D4'
    """
    words = list(_WORD.finditer(text))
    if not words:
        raise ValueError(
            "There are no strings here: write the open strings from low to high, as E2 A2 D3 G3 B3 E4."
        )
    if len(words) > MOST_STRINGS:
        raise ValueError(f"“{text.strip()}” has {len(words)} strings, and the most is {MOST_STRINGS}.")
    strings = tuple(_open_string(found[0], number) for number, found in enumerate(words, start=1))
    _check_order(text.strip(), strings)
    return Tuning(name or " ".join(str(string) for string in strings), strings)


def _check_order(text: str, strings: tuple[Pitch, ...]) -> None:
    """Refuse strings that run from the high side down, and a course written as two strings."""
    if len(strings) > 1 and all(one.midi > two.midi for one, two in pairwise(strings)):
        turned = " ".join(str(string) for string in reversed(strings))
        raise ValueError(f"“{text}” begins with the highest string: write the lowest string first: {turned}.")
    pairs = list(zip(strings[::2], strings[1::2], strict=False))
    if len(strings) >= _COURSES and len(strings) % 2 == 0 and all(_is_course(*pair) for pair in pairs):
        single = " ".join(str(min(pair, key=lambda string: string.midi)) for pair in pairs)
        raise ValueError(
            f"“{text}” has its strings in pairs, and a course counts as one string: write {single}."
        )


def _is_course(one: Pitch, two: Pitch) -> bool:
    """Whether two strings lie in unison or an octave apart."""
    return abs(one.midi - two.midi) in (0, 12)


def _open_string(word: str, number: int) -> Pitch:
    """One open string; ``number`` is its place in the text, counted from 1."""
    found = _PITCH.fullmatch(word)
    if found is None:
        raise ValueError(
            f"String {number}, “{word}”, is not a pitch: write a note and its octave, as F#3 or Bb2."
        )
    note = found["letter"].upper() + found["accidentals"]
    if found["octave"] is None:
        raise ValueError(
            f"String {number}, “{word}”, lacks its octave: write {note}2 or {note}3; C4 is middle C."
        )
    pitch = Pitch(NoteName.parse(note), int(found["octave"]))
    if not 0 <= pitch.midi <= 108:
        raise ValueError(f"String {number}, “{word}”, is out of range: open strings lie between C-1 and C8.")
    return pitch

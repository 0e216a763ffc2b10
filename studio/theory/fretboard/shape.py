"""Shapes: which fret of each string is pressed, and with which finger.

Frets are counted from the capo or, without one, from the nut; 0 is an open string and None one that stays silent.
Fingers are 1 (index) to 4 (little finger), 0 where nothing is pressed. A finger that presses several strings is a
barre.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import compress

from studio.music.chord import Chord
from studio.music.chord_tones import Tone
from studio.music.pitch import NATURAL_SEMITONES, NoteName, Pitch
from studio.theory.fretboard.tuning import Tuning
from studio.theory.plain_english import counted

HIGHEST_FRET = 24

_SPACED = re.compile(r"[^\s,.–-]+")
_BETWEEN = re.compile(r"[\s,.–-]")


@dataclass(frozen=True, slots=True)
class Barre:
    """One finger flat over the strings from ``first`` to ``last`` (0 is the low string) at one fret."""

    fret: int
    first: int
    last: int
    finger: int


@dataclass(frozen=True, slots=True)
class Shape:
    """A fret for each string, low string first, and the fingers that press them; () if nobody said which."""

    frets: tuple[int | None, ...]
    fingers: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        if self.fingers and len(self.fingers) != len(self.frets):
            raise ValueError(
                f"This shape has {len(self.frets)} strings and {len(self.fingers)} fingers: "
                "give one finger for each string, 0 where none presses."
            )
        if wrong := [fret for fret in self.frets if fret is not None and not 0 <= fret <= HIGHEST_FRET]:
            raise ValueError(f"Fret {wrong[0]} is not on a neck: frets run from 0 (open) to {HIGHEST_FRET}.")

    @property
    def text(self) -> str:
        """As players write it: "x32010", or with dashes where a fret has two digits, "x-10-12-12-11-x"."""
        signs = ["x" if fret is None else str(fret) for fret in self.frets]
        return ("-" if any(len(sign) > 1 for sign in signs) else "").join(signs)

    @property
    def pressed(self) -> tuple[int, ...]:
        """The frets that fingers press, low string first."""
        return tuple(fret for fret in self.frets if fret)

    @property
    def lowest_fret(self) -> int:
        """The lowest fret that is pressed; 0 if none is."""
        return min(self.pressed, default=0)

    @property
    def highest_fret(self) -> int:
        """The highest fret that is pressed; 0 if none is."""
        return max(self.pressed, default=0)

    @property
    def strings(self) -> tuple[int, ...]:
        """The strings that sound."""
        return tuple(compress(range(len(self.frets)), (fret is not None for fret in self.frets)))

    @property
    def barres(self) -> tuple[Barre, ...]:
        """Fingers that press more than one string, the lowest fret first."""
        found = []
        for finger in sorted({finger for finger in self.fingers if finger}):
            strings = [string for string, used in enumerate(self.fingers) if used == finger]
            fret = self.frets[strings[0]]
            if len(strings) > 1 and fret:
                found.append(Barre(fret, strings[0], strings[-1], finger))
        return tuple(sorted(found, key=lambda barre: barre.fret))

    def pitches(self, tuning: Tuning, chord: Chord | None = None) -> tuple[Pitch | None, ...]:
        """What each string sounds, None for a silent one; notes of the chord are spelled as it spells them.

        Raises ValueError if the shape has more or fewer strings than the tuning.
        """
        if len(self.frets) != len(tuning.strings):
            raise ValueError(
                f"“{self.text}” has {counted(len(self.frets), 'string')}, and {tuning} has "
                f"{len(tuning.strings)}: give one fret or x for each string."
            )
        names = chord.notes() if chord is not None else ()
        return tuple(
            None if fret is None else spelled(midi + fret, names)
            for fret, midi in zip(self.frets, tuning.midi, strict=True)
        )

    def tones(self, tuning: Tuning, chord: Chord) -> tuple[Tone | None, ...]:
        """The chord tone on each string; None for a silent string and for a note foreign to the chord."""
        by_pc = {(chord.root.pc + tone.semitones) % 12: tone for tone in reversed(chord.tones)}
        return tuple(
            None if pitch is None else by_pc.get(pitch.name.pc) for pitch in self.pitches(tuning, chord)
        )

    def bass(self, tuning: Tuning, chord: Chord | None = None) -> Pitch | None:
        """The lowest pitch that sounds, on whichever string; None if nothing sounds."""
        sounding = [pitch for pitch in self.pitches(tuning, chord) if pitch is not None]
        return min(sounding, key=lambda pitch: pitch.midi, default=None)

    def __str__(self) -> str:
        return self.text


def spelled(midi: int, names: Iterable[NoteName]) -> Pitch:
    """The pitch of a MIDI note, by one of these names if one fits, or else as in C major."""
    for name in names:
        if name.pc == midi % 12:
            return Pitch(name, (midi - NATURAL_SEMITONES[name.step] - name.alter) // 12 - 1)
    return Pitch.from_midi(midi)


def read_shape(text: str, strings: int | None = None) -> Shape:
    """The shape that a text gives, low string first: "x32010", "x-10-12-12-11-x", "x 3 2 0 1 0".

    ``strings`` is how many there have to be, if that is known. Raises ValueError in one plain sentence with
    the place of what makes no sense.
    """
    written = text.strip()
    spaced = _BETWEEN.search(written) is not None
    signs = _SPACED.findall(written) if spaced else list(written)
    if not signs:
        raise ValueError(
            "There is no shape here: write a fret or x for each string, low string first, as x32010."
        )
    frets = tuple(_fret(sign, number, written) for number, sign in enumerate(signs, start=1))
    if strings is not None and len(frets) != strings:
        remedy = "" if spaced or len(frets) < strings else ", with dashes between frets of two digits"
        raise ValueError(
            f"“{written}” gives {counted(len(frets), 'string')} and there are {strings}: "
            f"write a fret or x for each{remedy}."
        )
    return Shape(frets)


def _fret(sign: str, number: int, written: str) -> int | None:
    """The fret of one string; ``number`` is its place in the text, counted from 1."""
    if sign in ("x", "X", "×"):
        return None
    if not (sign.isascii() and sign.isdigit()):
        raise ValueError(
            f"String {number} of “{written}” is “{sign}”: write a fret, 0 for an open string or x for a silent one."
        )
    if int(sign) > HIGHEST_FRET:
        raise ValueError(
            f"String {number} of “{written}” is fret {sign}, and necks end at {HIGHEST_FRET}: "
            "with dashes between all strings each fret stands alone, as x-10-12-12-11-x."
        )
    return int(sign)

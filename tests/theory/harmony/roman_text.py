"""Every analysis in RomanText that music21's corpus ships, as values of ours.

RomanText is the format of Tymoczko, Gotham, Cuthbert and Ariza (ISMIR 2019): a person's Roman numerals with
keys, measures and beats. The corpus of music21 10 has 68: 48 madrigals by Monteverdi and 20 of Bach's chorales.
Each numeral becomes the chord that a chart would write for it, from the notes that music21 builds for it: root,
quality and bass. A figure such as ``[no5]`` or ``[no1]`` says which notes the score leaves out; the chart has
the whole chord all the same, save for ``[no3]``, which makes it a power chord.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.scale_degrees import ScaleDegree, degree_in

_LEFT_OUT = re.compile(r"(\[no\d+\]|\[no3no5\])+")

# Semitones above the root -> quality. The third decides the letter count; "no3" is dealt with before.
_QUALITIES = {
    (4, 7): "", (3, 7): "m", (3, 6): "dim", (4, 8): "aug", (4, 7, 11): "maj7", (4, 7, 10): "7",
    (3, 7, 10): "m7", (3, 7, 11): "mMaj7", (3, 6, 10): "m7♭5", (3, 6, 9): "dim7", (2, 4, 7, 10): "9",
    (2, 4, 7, 11): "maj9", (2, 3, 7, 10): "m9",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class HumanChord:
    """One numeral as a person wrote it.

    ``onset`` and ``length`` are in quarter notes from the start of the work, ``strength`` is music21's metrical
    weight of the onset (1.0 is a downbeat). ``degree`` is the root's degree in the key that the numeral counts
    in, ``of`` the degree that an applied numeral points to, both altered from the MAJOR scale of their tonic.
    ``chord`` is None where the numeral makes no chord that a chart could write; ``tones`` are the notes that
    music21 builds.
    """

    onset: Fraction
    length: Fraction
    measure: int
    strength: float
    key: Key
    figure: str
    degree: ScaleDegree
    of: ScaleDegree | None
    chord: Chord | None
    tones: tuple[NoteName, ...]


@dataclass(frozen=True, slots=True)
class Analysis:
    """A work with a person's numerals in order; ``work`` is the file's name without its ending."""

    work: str
    numerals: tuple[HumanChord, ...]

    @property
    def readable(self) -> tuple[HumanChord, ...]:
        """The numerals that are chords, in order; one for each chord of ``chart``."""
        return tuple(numeral for numeral in self.numerals if numeral.chord is not None)

    @property
    def chart(self) -> Chart:
        """The chords as a chart."""
        return Chart(tuple(ChordAt(one.onset, one.length, one.chord) for one in self.readable))

    @property
    def keys(self) -> tuple[tuple[Fraction, Key], ...]:
        """The person's keys, each from where it begins, as ``read_chart`` takes them."""
        found: list[tuple[Fraction, Key]] = []
        for one in self.readable:
            if not found or found[-1][1] != one.key:
                found.append((one.onset, one.key))
        return tuple(found)


@lru_cache(maxsize=1)
def analyses() -> tuple[Analysis, ...]:
    """All the analyses, by name; music21 takes about 25 seconds to parse them."""
    import music21

    folder = Path(music21.__file__).parent / "corpus"
    return tuple(read_analysis(path) for path in sorted(folder.rglob("*.rntxt")))


def read_analysis(path: Path) -> Analysis:
    """One analysis from its file."""
    from music21 import converter, roman

    part = converter.parse(path, format="romanText", forceSource=True).parts[0]
    found = part.flatten().getElementsByClass(roman.RomanNumeral)
    return Analysis(path.stem, tuple(_human_chord(numeral) for numeral in found))


def _human_chord(numeral: Any) -> HumanChord:
    key = _key(numeral.key)
    counted = numeral.secondaryRomanNumeralKey
    built = _whole(numeral)
    root = _note(built.root())
    return HumanChord(
        onset=Fraction(numeral.offset),
        length=Fraction(numeral.quarterLength),
        measure=numeral.measureNumber,
        strength=float(numeral.beatStrength),
        key=key,
        figure=numeral.figure,
        degree=degree_in(key if counted is None else _key(counted), root),
        of=None if counted is None else degree_in(key, _note(counted.tonic)),
        chord=_chord(built, numeral.figure),
        tones=tuple(_note(pitch) for pitch in numeral.pitches),
    )


def _whole(numeral: Any) -> Any:
    """The numeral with the notes that the person says are left out."""
    from music21 import roman

    figure = _LEFT_OUT.sub("", numeral.figure)
    if figure == numeral.figure:
        return numeral
    # the same reading of degrees 6 and 7 in minor as RomanText's
    return roman.RomanNumeral(
        figure, numeral.key, sixthMinor=numeral.sixthMinor, seventhMinor=numeral.seventhMinor
    )


def _chord(built: Any, figure: str) -> Chord | None:
    root, bass = _note(built.root()), _note(built.bass())
    above = tuple(sorted({(pitch.pitchClass - root.pc) % 12 for pitch in built.pitches} - {0}))
    quality = _QUALITIES.get(above)
    if quality is None:
        return None
    if "no3" in figure:
        if (bass.pc - root.pc) % 12 in (3, 4):
            return None
        return Chord.of(root, quality.removeprefix("m") if quality != "maj7" else quality, ("no3",), bass)
    return Chord.of(root, quality, (), bass)


def _key(key: Any) -> Key:
    return Key(_note(key.tonic), "minor" if key.mode == "minor" else "major")


def _note(pitch: Any) -> NoteName:
    return NoteName.parse(pitch.name.replace("-", "b"))


def all_numerals() -> Iterator[tuple[Analysis, HumanChord]]:
    """Each numeral with its work."""
    for analysis in analyses():
        for numeral in analysis.numerals:
            yield analysis, numeral

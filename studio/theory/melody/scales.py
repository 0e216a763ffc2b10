"""The scales that musicians name: the modes of the major, melodic minor and harmonic minor scales, pentatonics, blues.

A scale is its degrees, counted in the major scale on the same tonic: Dorian is 1 2 ♭3 4 5 6 ♭7. Seven-note
scales have each letter once, so that they are spelled right from any tonic: the altered scale on C is
C D♭ E♭ F♭ G♭ A♭ B♭, though players who think of the chord write its F♭ as E. The minor blues scale has its
blue note as ♭5 and the major one as ♭3; the two and the Mixolydian mode together are the composite blues scale,
of which musicians just say "blues" (common practice).

Names are those of jazz and pop teaching; where two are in use the other one is kept beside it. What counts as
usual is common practice too, and only orders the answers of ``modes``.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from studio.music.chord import Tone
from studio.music.pitch import NoteName

Family = Literal["major", "melodic minor", "harmonic minor", "pentatonic", "blues"]


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale without its tonic.

    ``degrees`` are labels as counted in the major scale ("♭3"), from the tonic up; ``rarity`` is 0 for what a
    listener expects, 1 for what is met now and then, 2 for what is met seldom (common practice). ``said`` is what
    musicians say for it where that is not its name.
    """

    name: str
    family: Family
    degrees: tuple[str, ...]
    other_names: tuple[str, ...] = ()
    rarity: int = 0
    said: str = ""

    @property
    def semitones(self) -> tuple[int, ...]:
        """Half steps above the tonic, 0 first and rising."""
        return _semitones(self.degrees)

    @property
    def third(self) -> Literal["major", "minor"]:
        """Which third it has; blues scales that have both count as major."""
        return "major" if "3" in self.degrees else "minor"

    def notes(self, tonic: NoteName) -> tuple[NoteName, ...]:
        """The notes from the tonic up, spelled by their degrees: B Dorian has C♯ and G♯."""
        return tuple(tonic.transposed(tone.letters, tone.semitones) for tone in _tones(self.degrees))

    def note_at(self, tonic: NoteName, semitones: int) -> NoteName | None:
        """The scale's own name for the note so many half steps (0 to 11) above the tonic; None outside it."""
        found = next((tone for tone in _tones(self.degrees) if tone.semitones == semitones), None)
        return None if found is None else tonic.transposed(found.letters, found.semitones)

    def holds(self, semitones: int) -> bool:
        """Whether the note so many half steps above the tonic belongs to it."""
        return semitones % 12 in self.semitones

    def __str__(self) -> str:
        return self.said or self.name


@lru_cache(maxsize=64)
def _tones(degrees: tuple[str, ...]) -> tuple[Tone, ...]:
    return tuple(Tone.of(degree) for degree in degrees)


@lru_cache(maxsize=64)
def _semitones(degrees: tuple[str, ...]) -> tuple[int, ...]:
    return tuple(tone.semitones for tone in _tones(degrees))


def _scale(name: str, family: Family, degrees: str, *other_names: str, rarity: int = 0) -> Scale:
    return Scale(name, family, tuple(degrees.split()), other_names, rarity)


MAJOR_MODES = (
    _scale("Ionian", "major", "1 2 3 4 5 6 7", "major"),
    _scale("Dorian", "major", "1 2 ♭3 4 5 6 ♭7"),
    _scale("Phrygian", "major", "1 ♭2 ♭3 4 5 ♭6 ♭7"),
    _scale("Lydian", "major", "1 2 3 ♯4 5 6 7"),
    _scale("Mixolydian", "major", "1 2 3 4 5 6 ♭7", "dominant"),
    _scale("Aeolian", "major", "1 2 ♭3 4 5 ♭6 ♭7", "natural minor"),
    _scale("Locrian", "major", "1 ♭2 ♭3 4 ♭5 ♭6 ♭7", rarity=1),
)
"""The modes of the major scale, in the order of its degrees."""

MELODIC_MINOR_MODES = (
    _scale("melodic minor", "melodic minor", "1 2 ♭3 4 5 6 7", "jazz minor", "Ionian ♭3", rarity=1),
    _scale("Dorian ♭2", "melodic minor", "1 ♭2 ♭3 4 5 6 ♭7", "Phrygian ♮6", rarity=2),
    _scale("Lydian augmented", "melodic minor", "1 2 3 ♯4 ♯5 6 7", "Lydian ♯5", rarity=2),
    _scale(
        "Lydian dominant",
        "melodic minor",
        "1 2 3 ♯4 5 6 ♭7",
        "Lydian ♭7",
        "Mixolydian ♯11",
        "acoustic",
        rarity=1,
    ),
    _scale(
        "Mixolydian ♭6", "melodic minor", "1 2 3 4 5 ♭6 ♭7", "Aeolian dominant", "Mixolydian ♭13", rarity=1
    ),
    _scale("Locrian ♮2", "melodic minor", "1 2 ♭3 4 ♭5 ♭6 ♭7", "Aeolian ♭5", "half-diminished", rarity=2),
    _scale("altered", "melodic minor", "1 ♭2 ♭3 ♭4 ♭5 ♭6 ♭7", "super-Locrian", rarity=2),
)
"""The modes of the rising melodic minor scale, in the order of its degrees."""

HARMONIC_MINOR_MODES = (
    _scale("harmonic minor", "harmonic minor", "1 2 ♭3 4 5 ♭6 7", "Aeolian ♮7", rarity=1),
    _scale("Locrian ♮6", "harmonic minor", "1 ♭2 ♭3 4 ♭5 6 ♭7", rarity=2),
    _scale("Ionian ♯5", "harmonic minor", "1 2 3 4 ♯5 6 7", "Ionian augmented", rarity=2),
    _scale("Dorian ♯4", "harmonic minor", "1 2 ♭3 ♯4 5 6 ♭7", "Ukrainian Dorian", "Romanian minor", rarity=2),
    _scale("Phrygian dominant", "harmonic minor", "1 ♭2 3 4 5 ♭6 ♭7", "Phrygian ♮3", "Freygish", rarity=1),
    _scale("Lydian ♯2", "harmonic minor", "1 ♯2 3 ♯4 5 6 7", rarity=2),
    _scale(
        "super-Locrian ♭♭7",
        "harmonic minor",
        "1 ♭2 ♭3 ♭4 ♭5 ♭6 ♭♭7",
        "altered ♭♭7",
        "ultra-Locrian",
        rarity=2,
    ),
)
"""The modes of the harmonic minor scale, in the order of its degrees."""

PENTATONICS = (
    _scale("major pentatonic", "pentatonic", "1 2 3 5 6"),
    _scale("minor pentatonic", "pentatonic", "1 ♭3 4 5 ♭7"),
)

BLUES_SCALES = (
    _scale("minor blues", "blues", "1 ♭3 4 ♭5 5 ♭7", "blues"),
    _scale("major blues", "blues", "1 2 ♭3 3 5 6"),
)

COMPOSITE_BLUES = Scale(
    "composite blues", "blues", ("1", "2", "♭3", "3", "4", "♭5", "5", "6", "♭7"), said="blues"
)
"""Both blues scales and the Mixolydian mode in one: what a blues sings, with both thirds."""

BLUE_NOTES = {"minor blues": 6, "major blues": 3}
"""The note, in half steps above the tonic, that makes a pentatonic into a blues scale."""

_USUAL_FIRST = ("Ionian", "Aeolian", "Mixolydian", "Dorian", "Lydian", "Phrygian", "harmonic minor")

SCALES: tuple[Scale, ...] = tuple(
    sorted(
        (
            *MAJOR_MODES,
            *PENTATONICS,
            *BLUES_SCALES,
            COMPOSITE_BLUES,
            *MELODIC_MINOR_MODES,
            *HARMONIC_MINOR_MODES,
        ),
        key=lambda scale: (scale.rarity, *(scale.name != name for name in _USUAL_FIRST)),
    )
)
"""All of them, in the order in which they are named where the music leaves several open (common practice)."""


def scale_named(name: str) -> Scale:
    """The scale with a name, or another of its names, in capitals or not: "Aeolian", "natural minor", "Lydian b7".

    Raises KeyError with the name that is not known.
    """
    return _BY_NAME[_plain(name)]


def _plain(name: str) -> str:
    """The name without capitals, with real accidentals, and with spaces for hyphens.

    >>> _plain("Super-Locrian bb7")
    'super locrian ♭♭7'
    """
    words = name.lower().replace("-", " ").split()
    return " ".join(
        word.replace("b", "♭").replace("#", "♯") if word[-1:].isdigit() else word for word in words
    )


_BY_NAME = {_plain(name): scale for scale in SCALES for name in (scale.name, *scale.other_names)}

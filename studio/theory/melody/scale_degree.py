"""What a note is in its key: its scale degree, whatever chord sounds under it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.reading import Style
from studio.theory.harmony.scale_degrees import ScaleDegree, degree_in

_NAMES = ("tonic", "supertonic", "mediant", "subdominant", "dominant", "submediant")
_RAISED_IN_MINOR = {(6, 0), (7, 0)}  # the melodic minor scale's own notes


@dataclass(frozen=True, slots=True)
class NoteInKey:
    """A note in a key. ``degree`` counts from the major scale on the tonic: C in A minor is ♭3.

    ``diatonic`` is whether the key holds the note; a minor key holds both sixths and both sevenths, as the
    melodic minor scale does.
    """

    key: Key
    degree: ScaleDegree
    diatonic: bool

    def label(self, style: Style = "relative-to-major") -> str:
        """ "♭3"; with "common-practice" the scale of the key is counted, so that C in A minor is 3."""
        if style == "relative-to-major" or self.key.mode == "major":
            return str(self.degree)
        lowered = self.degree.number in (3, 6, 7)
        return str(ScaleDegree(self.degree.number, self.degree.alter + (1 if lowered else 0)))

    @property
    def name(self) -> str:
        """ "tonic" to "submediant", "leading tone" or "subtonic"; "" for a note that the key does not hold."""
        if not self.diatonic:
            return ""
        if self.degree.number < 7:
            return _NAMES[self.degree.number - 1]
        return "leading tone" if self.degree.alter == 0 else "subtonic"


@lru_cache(maxsize=4096)
def note_in_key(note: NoteName, key: Key) -> NoteInKey:
    """The degree that a note is by its letter, and whether the key holds it."""
    degree = degree_in(key, note)
    diatonic = note in key.scale()
    if key.mode == "minor" and not diatonic:
        diatonic = (degree.number, degree.alter) in _RAISED_IN_MINOR
    return NoteInKey(key, degree, diatonic)

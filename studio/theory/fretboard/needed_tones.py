"""Which tones of a chord a shape has to sound, and which may stay out.

The rule, common practice of players (handbooks of chord voicing say the same; from memory):

- the third, or what stands for it in a sus chord, the sixth or seventh, an altered fifth, whatever was added or
  altered by name and the highest tone of the stack are what names the chord, and have to sound;
- a perfect fifth may stay out of chords of four tones and more;
- a natural ninth may stay out where an eleventh or thirteenth lies above it, and a natural eleventh below a
  thirteenth;
- a natural eleventh drives out the major third, which it grinds against: the third may stay out of C11;
- C7alt wants one of its ninths and one of ♯11 and ♭13, not all four;
- the root stays in unless somebody asks for a shape without it, for playing with a bass;
- the note after a slash has to be the lowest one, and if it is foreign to the chord it sounds nowhere else.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.music.chord import Chord
from studio.music.chord_tones import Tone

_ALTERED = (frozenset({"♭9", "♯9"}), frozenset({"♯11", "♭13"}))


@dataclass(frozen=True, slots=True)
class Needed:
    """What a shape has to sound, in pitch classes.

    ``groups``: of each, at least one has to sound. ``allowed``: all that may sound on any string. ``may_lack``:
    tones that may stay out but are better there. ``bass``: what the lowest note has to be, None for any.
    """

    groups: tuple[frozenset[int], ...]
    allowed: frozenset[int]
    may_lack: frozenset[int]
    bass: int | None

    @property
    def fewest(self) -> int:
        """How many different notes have to sound at least."""
        return len(self.groups) + (self.bass is not None and self.bass not in self.allowed)


@lru_cache(maxsize=1024)
def needed_tones(chord: Chord, rootless: bool = False) -> Needed:
    """What a shape of this chord has to sound; see the rule at the head of this module."""
    root = chord.root.pc
    optional = {tone.degree for tone in chord.tones if _may_lack(tone, chord)}
    if rootless:
        optional.add("1")
    groups = []
    loose = chord.tones
    if chord.quality == "7alt":
        groups = [
            frozenset((root + Tone.of(degree).semitones) % 12 for degree in degrees) for degrees in _ALTERED
        ]
        loose = tuple(tone for tone in chord.tones if not any(tone.degree in degrees for degrees in _ALTERED))
    groups += [frozenset({(root + tone.semitones) % 12}) for tone in loose if tone.degree not in optional]
    return Needed(
        groups=tuple(groups),
        allowed=frozenset((root + tone.semitones) % 12 for tone in chord.tones),
        may_lack=frozenset((root + tone.semitones) % 12 for tone in chord.tones if tone.degree in optional),
        bass=chord.bass.pc if chord.bass is not None else None,
    )


def _may_lack(tone: Tone, chord: Chord) -> bool:
    if f"add{tone.degree}" in chord.changes or (chord.upper is not None and tone.number > 7):
        return False
    highest = max(other.number for other in chord.tones)
    degrees = {other.degree for other in chord.tones}
    match tone.degree:
        case "5":
            return len(chord.tones) > 3
        case "9":
            return highest > 9
        case "11":
            return highest > 11
        case "3":
            return "11" in degrees and chord.quality in ("11", "maj11")
    return False

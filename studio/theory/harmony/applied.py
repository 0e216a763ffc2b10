"""Applied chords: the V, vii° or ii of a chord of the key other than its tonic."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.belonging import triad_on
from studio.theory.harmony.suspended_bass import as_suspended


@dataclass(frozen=True, slots=True)
class Target:
    """A major or minor triad of the key that a chord can point to."""

    root: NoteName
    triad: str

    def is_met_by(self, chord: Chord | None) -> bool:
        """Whether a chord is this triad, in any inversion and with whatever sevenths and colours it carries.

        A chord that leaves its third open is, as F/G is for G; one of the other mode (D7 where D minor was
        awaited) is not.
        """
        if chord is None:
            return False
        if chord.root.pc == self.root.pc:
            return chord.triad in (self.triad, "suspended", "power")
        sounding = as_suspended(chord)
        return sounding is not None and self.triad == "major" and sounding.root.pc == self.root.pc


@dataclass(frozen=True, slots=True)
class Applied:
    """An applied reading: ``base`` is "V", "vii" or "ii"; or "I" or "i" for the six-four that holds back a V."""

    base: str
    target: Target


@lru_cache(maxsize=256)
def targets(key: Key) -> tuple[Target, ...]:
    """The major and minor triads of the key, its tonic left out; in minor, both the V and the v."""
    found = [Target(note, triad_on(note, key)) for note in key.scale()[1:]]
    if key.mode == "minor":
        found.append(Target(key.scale()[4], "minor"))
    return tuple(target for target in found if target.triad in ("major", "minor"))


def leads_to(chord: Chord) -> tuple[str, int] | None:
    """How a chord could point onward: ("V" or "vii", semitones from its root up to the chord it points to).

    Dominants have a major third (or a suspended fourth and a seventh) and no major seventh; leading-tone
    chords are diminished or half-diminished.
    """
    if chord.seventh == "7":
        return None
    if chord.triad in ("major", "augmented") or (chord.triad == "suspended" and chord.seventh):
        return "V", 5
    if chord.triad == "diminished":
        return "vii", 1
    return None

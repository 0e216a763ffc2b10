"""Applied chords: the V, vii° or ii of a chord of the key other than its tonic."""

from __future__ import annotations

from dataclasses import dataclass

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.theory.harmony.belonging import triad_on


@dataclass(frozen=True, slots=True)
class Target:
    """A major or minor triad of the key that a chord can point to."""

    root: NoteName
    triad: str

    def is_met_by(self, chord: Chord | None) -> bool:
        """Whether a chord is this triad, in any inversion and with whatever sevenths and colours it carries.

        A chord that leaves its third open is; one of the other mode (D7 where D minor was awaited) is not.
        """
        awaited = (self.triad, "suspended", "power")
        return chord is not None and chord.root.pc == self.root.pc and chord.triad in awaited


@dataclass(frozen=True, slots=True)
class Applied:
    """An applied reading: ``base`` is "V", "vii" or "ii"."""

    base: str
    target: Target


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


def applied_dominant(chord: Chord, key: Key, following: Chord | None) -> tuple[Applied, bool] | None:
    """The applied reading of a chord, and whether it is resolved; None if there is none.

    ``following`` is the next different harmony. A chord that belongs to the key is not to be asked about.
    """
    leads = leads_to(chord)
    if leads is None:
        return None
    base, semitones = leads
    root = (chord.root.pc + semitones) % 12
    pointed = [target for target in targets(key) if target.root.pc == root]
    if not pointed:
        return None
    met = next((target for target in pointed if target.is_met_by(following)), None)
    return Applied(base, met or pointed[0]), met is not None


def applied_supertonic(chord: Chord, following: Chord | None, dominant_of: Target | None) -> bool:
    """Whether a chord is the ii of the applied dominant that follows it (Gm7 before C7, in C major)."""
    if following is None or dominant_of is None:
        return False
    minor = chord.triad == "minor" and chord.seventh in ("", "♭7")
    half = chord.triad == "diminished" and chord.seventh == "♭7"
    return (minor or half) and (chord.root.pc - dominant_of.root.pc) % 12 == 2

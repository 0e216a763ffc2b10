"""A loop as it is heard: its chords by what each of them does, with the numerals that a musician would call out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from studio.music.key import Key
from studio.theory.harmony.reading import Reading
from studio.theory.progression.harmonies import Harmony, acts_as_dominant, harmonies, plain_numeral
from studio.theory.progression.known_loops import Step

_SIGNS = {"diminished": "°", "augmented": "+"}


@dataclass(frozen=True, slots=True)
class HeardLoop:
    """The chords of one time round, in a key that is their own (``at_home``) or its relative.

    ``steps`` are the chords as steps of the key; ``leads`` tells for each chord whether it is the applied dominant of
    the one that follows.
    """

    chords: tuple[Harmony, ...]
    key: Key
    at_home: bool
    steps: tuple[Step, ...]
    leads: tuple[bool, ...]

    @classmethod
    def of(cls, chords: Sequence[Harmony], key: Key, at_home: bool = True) -> HeardLoop:
        """The loop of these chords, read in a key."""
        leads = (is_applied(chord) and chord.readings[-1].resolved for chord in chords)
        return cls(tuple(chords), key, at_home, tuple(step_in(chord, key) for chord in chords), tuple(leads))

    @property
    def names(self) -> tuple[str, ...]:
        """The plain numerals: "iv", "V/vi"; in the relative key without what they are applied to."""
        if self.at_home:
            return tuple(map(plain_name, self.chords))
        return tuple(plain_numeral(chord.fullest, self.key) for chord in self.chords)


def by_role(readings: Sequence[Reading]) -> tuple[Harmony, ...]:
    """The harmonies of a progression, one that changes what it leads to cut in two: I I7 IV is I, V/IV, IV."""
    return tuple(
        Harmony(tuple(group))
        for harmony in harmonies(readings)
        for _, group in groupby(harmony.readings, key=lambda reading: (reading.kind == "applied", reading.of))
    )


def step_in(chord: Harmony, key: Key) -> Step:
    """A harmony as a step of a key; in major, all that does what V does is V: G♭/A♭ and A♭9sus4 in D♭."""
    if key.mode == "major" and acts_as_dominant(chord.fullest, key):
        return Step(7, "major")
    return Step(key.above(chord.fullest.root), chord.fullest.triad)


def is_applied(chord: Harmony) -> bool:
    """Whether a harmony is the dominant of another chord than the tonic, or belongs to one."""
    return chord.readings[-1].kind == "applied" and chord.readings[-1].of != ""


def plain_name(chord: Harmony) -> str:
    """The numeral of a harmony as its reading has it, without sevenths and figures: "♭VI", "ii°", "V/vi".

    A plain triad that leads nowhere is no dominant to call out: I–III–IV–iv, not I–V/vi–IV–iv.
    """
    reading = chord.readings[-1]
    if is_applied(chord) and not reading.resolved and not chord.fullest.seventh:
        return plain_numeral(chord.fullest, chord.key)
    shown = reading.numeral_display
    applied = f"/{shown.of}" if shown.of else ""
    return f"{shown.accidental}{shown.base}{_SIGNS.get(chord.fullest.triad, '')}{applied}"

"""Neighbouring chords that are one harmony, joined: G7sus4 G7 G7/F is one dominant, and moves once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.harmony.standing import same_harmony

_NUMERALS = ("I", "♭II", "II", "♭III", "III", "IV", "♯IV", "V", "♭VI", "VI", "♭VII", "VII")


@dataclass(frozen=True, slots=True)
class Harmony:
    """One or more readings in a row on one root, none of them N.C.; major and minor are never joined."""

    readings: tuple[Reading, ...]

    @property
    def span(self) -> Span:
        """From where the first chord starts to where the last one stops, in quarter notes."""
        return Span(self.readings[0].at.start, self.readings[-1].at.end)

    @property
    def key(self) -> Key:
        """The key that holds where it starts."""
        return self.readings[0].key

    @property
    def first(self) -> Chord:
        """The chord that it starts as, which is the one that is arrived at."""
        return chord_of(self.readings[0])

    @property
    def last(self) -> Chord:
        """The chord that it ends as, which is the one that moves on."""
        return chord_of(self.readings[-1])

    @property
    def fullest(self) -> Chord:
        """The chord that says most of it: the last one with a third, or else the last one."""
        thirds = [
            at for at in map(chord_of, self.readings) if at.triad not in ("suspended", "power", "other")
        ]
        return thirds[-1] if thirds else self.last

    @property
    def numeral(self) -> str:
        """The numeral that it starts as."""
        return self.readings[0].numeral


def harmonies(readings: Sequence[Reading]) -> tuple[Harmony, ...]:
    """The harmonies of a progression in their order; N.C. and silences are passed over."""
    groups: list[list[Reading]] = []
    for reading in readings:
        if reading.at.chord is None:
            continue
        before = groups[-1] if groups else None
        if before and before[-1].key == reading.key and _one_harmony(before, reading.at.chord):
            before.append(reading)
        else:
            groups.append([reading])
    return tuple(Harmony(tuple(group)) for group in groups)


def chord_of(reading: Reading) -> Chord:
    """The chord of a reading that is not N.C."""
    assert reading.at.chord is not None
    return reading.at.chord


def in_root_position(chord: Chord) -> bool:
    """Whether the root is lowest."""
    return chord.lowest.pc == chord.root.pc


def is_tonic(harmony: Harmony) -> bool:
    """Whether a harmony stands on the tonic and could rest."""
    return harmony.key.above(harmony.first.root) == 0 and harmony.first.triad != "diminished"


def acts_as_dominant(chord: Chord, key: Key) -> bool:
    """Whether a chord does what V does: V with its leading note, sus or bare, or IV or ii over 5 (F/G in C)."""
    if key.above(chord.root) == 7:
        return chord.triad in ("major", "augmented", "suspended", "power")
    over_five = key.above(chord.lowest) == 7 and chord.bass_tone is None
    return over_five and key.above(chord.root) in (2, 5)


def plain_numeral(chord: Chord, key: Key) -> str:
    """The numeral of a chord in a key without sevenths, figures or what it is applied to: "♭VI", "ii", "vii°"."""
    numeral = _NUMERALS[key.above(chord.root)]
    if chord.triad in ("minor", "diminished"):
        numeral = numeral.lower()
    return numeral + {"diminished": "°", "augmented": "+"}.get(chord.triad, "")


def plain_symbol(chord: Chord) -> str:
    """The chord's root with no more than major or minor: "Am" for AmMaj7."""
    return f"{chord.root}{'m' if chord.triad == 'minor' else 'dim' if chord.triad == 'diminished' else ''}"


def _one_harmony(group: Sequence[Reading], chord: Chord) -> bool:
    """Whether a chord goes with each of a group: over a sus chord in between, major and minor do not meet."""
    return all(same_harmony(chord_of(reading), chord) for reading in group)

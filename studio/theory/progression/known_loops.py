"""Well-known loops and forms by the names that the trade gives them.

Names are common practice: people who play together use them, no authority gives them out, and some loops have
others. ``source`` says where a form can be looked up. Chords are written plainly, since sevenths and colours
do not change what a loop is called. In ``bars`` forms each numeral fills the same time, so that where chords
fall counts as well as their order.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

_POP = "Open Music Theory, Introduction to Harmonic Schemas in Pop Music"
_MODAL = "Open Music Theory, Modal Schemas"
_TRADE = "common practice"
_OLD = "common practice of the 16th and 17th centuries, from memory"

_NUMERAL = re.compile(r"(♭|♯)?([IVX]+|[ivx]+)(°|\+)?")
_ABOVE = {"I": 0, "II": 2, "III": 4, "IV": 5, "V": 7, "VI": 9, "VII": 11}


@dataclass(frozen=True, slots=True)
class Step:
    """A plain chord in a key: half steps of its root above the tonic, and what its triad is."""

    above: int
    triad: str

    @classmethod
    def of(cls, numeral: str) -> Step:
        """Read "♭VI", "ii", "vii°", "III+", accidentals counted from the major scale. ValueError otherwise."""
        match = _NUMERAL.fullmatch(numeral)
        if match is None or match[2].upper() not in _ABOVE:
            raise ValueError(f"“{numeral}” is not a plain numeral.")
        shift = {"♭": -1, "♯": 1, None: 0}[match[1]]
        triad = {"°": "diminished", "+": "augmented"}.get(
            match[3], "major" if match[2].isupper() else "minor"
        )
        return cls((_ABOVE[match[2].upper()] + shift) % 12, triad)


@dataclass(frozen=True, slots=True)
class KnownLoop:
    """A loop or form: ``name``, ``numerals`` once round from its usual start, and ``source``.

    ``bars`` is 0 for a loop known by the order of its chords, or the number of bars that the numerals share.
    ``loose`` forms are played with so many chords in place of others that none of them is worth telling.
    """

    name: str
    numerals: tuple[str, ...]
    source: str
    bars: int = 0
    loose: bool = False

    @property
    def text(self) -> str:
        """ "I–V–vi–IV"."""
        return "–".join(self.numerals)


def _loop(name: str, numerals: str, source: str = _TRADE, bars: int = 0, *, loose: bool = False) -> KnownLoop:
    return KnownLoop(name, tuple(numerals.split()), source, bars, loose)


def _rhythm_changes(numerals: str) -> KnownLoop:
    return _loop("rhythm changes A section", numerals, _TRADE, 8, loose=True)


KNOWN_LOOPS: tuple[KnownLoop, ...] = (
    _loop("four-chord loop", "I V vi IV", _POP),
    _loop("doo-wop changes", "I vi IV V", _POP),
    _loop("turnaround", "I vi ii V", _POP),
    _loop("circle progression", "vi ii V I"),
    _loop("circle of fifths", "ii V I IV"),
    _loop("ii–V–I", "ii V I"),
    _loop("minor ii–V–i", "ii° V i"),
    _loop("ragtime progression", "I VI II V"),
    _loop("rhythm changes bridge", "III VI II V"),
    _loop("hopscotch", "IV V vi I", _POP),
    _loop("royal road progression", "IV V iii vi"),
    _loop("three-chord loop", "I IV V"),
    _loop("three-chord loop", "I IV V IV"),
    _loop("three-chord loop", "I IV I V"),
    _loop("three-chord loop", "I V IV"),
    _loop("minor three-chord loop", "i iv V"),
    _loop("double plagal", "I ♭VII IV", _POP),
    _loop("extended plagal", "♭VI ♭III ♭VII IV I", _POP),
    _loop("plagal sigh", "IV iv I", _POP),
    _loop("Andalusian cadence", "i ♭VII ♭VI V", _POP),
    _loop("minor circle of fifths", "i iv ♭VII ♭III", _POP),
    _loop("minor circle of fifths", "i iv ♭VII ♭III ♭VI ii° V"),
    _loop("minor circle of fifths", "i iv ♭VII ♭III ♭VI ii° V i"),
    _loop("circle of fifths", "I IV vii° iii vi ii V I"),
    _loop("Aeolian cadence", "♭VI ♭VII i", _MODAL),
    _loop("Aeolian cadence", "♭VI ♭VII I", _MODAL),
    _loop("Aeolian shuttle", "i ♭VII ♭VI ♭VII", _MODAL),
    _loop("Lydian cadence", "II IV I", _MODAL),
    _loop("canon progression", "I V vi iii IV I IV V"),
    _loop("plagal shuttle", "I IV"),
    _loop("subtonic shuttle", "I ♭VII", _MODAL),
    _loop("subtonic shuttle", "i ♭VII", _MODAL),
    _loop("Dorian shuttle", "i IV", _MODAL),
    _loop("Lydian shuttle", "I II", _MODAL),
    _loop("folia", "i V i ♭VII ♭III ♭VII i V", _OLD),
    _loop("passamezzo antico", "i ♭VII i V ♭III ♭VII i V", _OLD),
    _loop("romanesca", "♭III ♭VII i V", _OLD),
    _loop("twelve-bar blues", "I I I I IV IV I I V IV I I", _POP, 12),
    _loop("jazz blues", "I IV I I IV IV I VI ii V I V", _TRADE, 12, loose=True),
    _loop("twelve-bar minor blues", "i i i i iv iv i i ♭VI V i i", _TRADE, 12),
    _loop("sixteen-bar blues", "I I I I I I I I IV IV I I V IV I I", _POP, 16),
    _loop("eight-bar blues", "I V IV IV I V I V", _TRADE, 8),
    _rhythm_changes("I vi ii V iii vi ii V I I IV iv I V I I"),
    _rhythm_changes("I vi ii V iii vi ii V I I IV iv I vi ii V"),
    _rhythm_changes("I vi ii V I vi ii V v I IV ♭VII ii V I I"),
    _rhythm_changes("I vi ii V I vi ii V v I IV iv iii vi ii V"),
)


@lru_cache(maxsize=128)
def steps_of(loop: KnownLoop) -> tuple[Step, ...]:
    """The steps of a loop, one for each of its numerals."""
    return tuple(Step.of(numeral) for numeral in loop.numerals)

"""What every chord of the vocabulary would cost as the name of some notes over a bass.

Notes are a shape: a bit mask of semitones above the bass, so that bit 0 is the bass itself. There are 2048
shapes, and each is looked at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.theory.parts.chord_naming_vocabulary import Entry, vocabulary

FOREIGN_BASS = 1.2
"""F/G: a chord over a note that is none of its own."""
_BASS_COSTS = {3: 0.5, 5: 0.5, 7: 0.6, 2: 0.9, 4: 0.9, 6: 1.0}
_BASS_OF_A_TENSION = 1.4
_BASS_OF_AN_EVEN_CHORD = 0.25
"""Diminished sevenths and augmented triads sound alike from each of their tones."""
_INVERTED_AND_LACKING = 0.2
_FIRST_FEW = 16
"""How many names are kept for a shape: more than spelling can ever change places between."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A chord of the vocabulary on a root ``above`` the bass (semitones, 0 to 11).

    ``lacking`` is a bit mask of the tones, counted from the root, that do not sound; ``foreign`` is true if
    the bass is none of the chord's tones.
    """

    entry: Entry
    above: int
    lacking: int
    foreign: bool
    cost: float

    @property
    def rootless(self) -> bool:
        """Whether the root itself is left out."""
        return bool(self.lacking & 1)

    @property
    def over(self) -> int:
        """Semitones from the root up to the bass, 0 to 11."""
        return -self.above % 12


@lru_cache(maxsize=2048)
def candidates(shape: int) -> tuple[Candidate, ...]:
    """The names that notes might have, the cheapest first; the first few."""
    found = [candidate for above in range(12) for candidate in _on_root(shape, above)]
    found.sort(key=lambda candidate: (candidate.cost, candidate.above))
    return tuple(found[:_FIRST_FEW])


def _on_root(shape: int, above: int) -> list[Candidate]:
    """The names with their root at one place; ``sounding`` and ``bass`` are counted from it."""
    sounding = (shape >> above | shape << 12 - above) & 0xFFF
    bass = -above % 12
    found = []
    for entry in vocabulary():
        extra = sounding & ~entry.mask
        if extra and (extra != 1 << bass or not entry.plain):
            continue
        lacking = entry.mask & ~sounding
        cost = next((cost for mask, cost in entry.lacks if mask == lacking), None)
        if cost is None or (lacking and extra):
            continue
        cost += entry.cost + (FOREIGN_BASS if extra else _bass_cost(entry, bass, lacking))
        found.append(Candidate(entry, above, lacking, bool(extra), cost))
    return found


def _bass_cost(entry: Entry, bass: int, lacking: int) -> float:
    tone = entry.tone_at(bass)
    if tone is None or lacking & 1:
        return 0.0
    if tone.number == 1:
        return 0.0
    if entry.even:
        return _BASS_OF_AN_EVEN_CHORD
    return _BASS_COSTS.get(tone.number, _BASS_OF_A_TENSION) + (_INVERTED_AND_LACKING if lacking else 0.0)

"""The chord that sounding notes make, named as the trade would.

The name is found by cost: each chord of a vocabulary is tried on each root, and costs what it is unusual,
what it lacks, what its bass strays from its root, and where its spelling differs from that of the notes. So
the bass tells C6 from Am7/C and Csus4 from Fsus2/C, the spelling a ♯5 from a ♭13, and shell and rootless
voicings get the name of the chord that they stand for. Notes that no chord of the vocabulary holds are left
without a name. Octaves and doublings count for nothing, save for which note is lowest.

The costs are common practice put in numbers: ``chord_naming_vocabulary`` has those of chords,
``chord_naming_scoring`` those of the bass, ``chord_naming_spelling`` that of a tone spelled otherwise. A 9 is
not told from a 2, nor a 13 from a 6, where only their octave differs (add9, 6).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.pitch import Pitch
from studio.theory.parts.chord_naming_polychords import polychord
from studio.theory.parts.chord_naming_spelling import Heard, Name
from studio.theory.parts.chord_naming_words import no_chord, reason

# In cost, as chord_naming_vocabulary counts it.
_EQUAL_WITHIN = 1.0
_RUNNER_UP_WITHIN = 0.8
_IN_USE = 1.0
"""An equal name is mentioned if its chord alone costs no more: it is one that people write."""
_POLYCHORD = 2.2
"""From here on, two triads say more than one unusual chord."""
_TOO_DEAR = 2.6
"""From here on, a name explains less than the notes do."""
_TWO_NOTES = 2.0
"""What sureness loses where two notes only suggest a triad."""

# As sureness, 0 to 1.
_SURE_OF_A_POLYCHORD = 0.6
_SURE_OF_NO_NAME = 0.6


@dataclass(frozen=True, slots=True)
class NamedChord:
    """The chord of some notes.

    ``chord`` is None where they make none or have no common name, and ``reason`` says which. ``others`` are
    equal names: the same notes over the same bass from another root, Am7/C beside C6. ``sureness`` (0 to 1)
    falls with what the name leaves unexplained and with how near the next best comes; ``runner_up`` is that
    next best, "" where none comes near.
    """

    chord: Chord | None
    others: tuple[Chord, ...] = ()
    reason: str = ""
    sureness: float = 0.0
    runner_up: str = ""

    @property
    def text(self) -> str:
        """The symbol, or "no common name"."""
        return self.chord.text if self.chord is not None else "no common name"


def name_chord(pitches: Iterable[Pitch], key: Key | None = None, spelled: bool = True) -> NamedChord:
    """The chord that pitches make, in any order and number; the lowest is the bass.

    >>> name_chord([Pitch.parse(text) for text in ("E2", "C3", "G3", "Bb3")]).text
    'C7/E'

    ``spelled`` says that the pitches are spelled as they are meant, as in a score. Pitches from MIDI are not:
    they are respelled as the key would, and then only the notes of the key count for telling ♯5 from ♭13.
    """
    from_low = sorted(pitches, key=lambda pitch: (pitch.midi, pitch.height))
    names = [pitch.name if spelled else Pitch.from_midi(pitch.midi, key).name for pitch in from_low]
    if not names:
        return NamedChord(None, reason=no_chord(()), sureness=1.0)
    return _named(Heard(names[0], frozenset(names), None if spelled else key, spelled))


@lru_cache(maxsize=16384)
def _named(heard: Heard) -> NamedChord:
    ranked = [name for name in heard.ranked() if name.cost < _TOO_DEAR]
    if not ranked or ranked[0].cost > _POLYCHORD:
        stacked = polychord(heard.bass, heard.in_order)
        if stacked is not None:
            runner_up = ranked[0].chord.text if ranked else ""
            return NamedChord(stacked, (), reason(stacked, False, ()), _SURE_OF_A_POLYCHORD, runner_up)
    if not ranked:
        sureness = 1.0 if len(heard.by_pc) < 3 else _SURE_OF_NO_NAME
        return NamedChord(None, reason=no_chord(heard.in_order), sureness=sureness)
    return _best(heard, ranked)


def _best(heard: Heard, ranked: list[Name]) -> NamedChord:
    first, second = ranked[0], ranked[1] if len(ranked) > 1 else None
    candidate = first.candidate
    others = _equals(heard, ranked)
    lacking = tuple(tone for tone in candidate.entry.tones if candidate.lacking >> tone.semitones % 12 & 1)
    suggested = _TWO_NOTES if lacking and len(heard.by_pc) == 2 else 0.0
    near = second is not None and second.cost <= first.cost + _RUNNER_UP_WITHIN
    return NamedChord(
        first.chord,
        others,
        reason(first.chord, candidate.foreign, lacking, others),
        _sureness(first.cost + suggested, second.cost - first.cost if second else 1.0),
        second.chord.text if second is not None and near else "",
    )


def _equals(heard: Heard, ranked: list[Name]) -> tuple[Chord, ...]:
    """Names of the same notes, none left out, from other roots; and a polychord, of six notes or more."""
    first = ranked[0]
    found = [
        name.chord
        for name in ranked[1:]
        if name.cost <= first.cost + _EQUAL_WITHIN and name.candidate.entry.cost <= _IN_USE
        if name.candidate.above != first.candidate.above and _whole(name) and _whole(first)
    ][:3]
    stacked = polychord(heard.bass, heard.in_order) if len(heard.by_pc) > 5 else None
    return tuple(dict.fromkeys([*found, *([stacked] if stacked else [])]))


def _whole(name: Name) -> bool:
    return not (name.candidate.lacking or name.candidate.foreign)


def _sureness(cost: float, margin: float) -> float:
    """A plain triad 0.95, an unusual chord less, a near second less again; between 0.2 and 0.95."""
    doubt = 0.15 * cost + (0.2 if margin < 0.2 else 0.1 if margin < 0.5 else 0.0)
    return round(max(0.2, 0.95 - doubt), 2)

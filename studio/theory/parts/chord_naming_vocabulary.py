"""The chords that a name may be chosen from, each with what it costs to choose it.

A cost is a judgement, common practice of the trade put in numbers: a plain triad costs nothing, a seventh or
a sus a little, rare stacks more; every change on a quality adds to it. What the notes leave out, where the
bass lies and how the notes are spelled cost more on top (``chord_naming_scoring``). Costs are compared, never
shown; a difference of 0.3 is a preference, a difference of 1 is a plain decision.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from studio.music.chord import Chord, Tone
from studio.music.pitch import NoteName

# How unusual a quality is by itself.
QUALITY_COSTS = {
    "": 0.0, "m": 0.0, "7": 0.3, "maj7": 0.3, "m7": 0.3, "5": 0.3, "dim": 0.4, "dim7": 0.4, "m7♭5": 0.45,
    "aug": 0.5, "6": 0.5, "sus4": 0.5, "m6": 0.6, "sus2": 0.6, "7sus4": 0.6, "9": 0.6, "maj9": 0.6, "m9": 0.6,
    "13": 0.7, "6/9": 0.8, "m6/9": 0.9, "mMaj7": 0.8, "9sus4": 0.8, "m11": 0.8, "13sus4": 1.0, "maj13": 1.0,
    "mMaj9": 1.0, "m13": 1.1, "11": 1.2, "maj11": 1.2, "7alt": 1.2, "7sus2": 1.3, "dimMaj7": 1.05,
    "maj7sus4": 1.3, "maj9sus4": 1.4, "maj7sus2": 1.5, "mMaj11": 1.4, "mMaj13": 1.5,
}  # fmt: skip

# What changes add, by quality. Where two names share their notes (add2 and add9, a triad with a raised fifth
# and the triad a third below in inversion), the one that fewer people would write is left out or costs more.
CHANGE_COSTS: dict[str, dict[str, float]] = {
    "": {"add9": 0.6, "add4": 0.9, "add♯11": 1.2, "add♭9": 1.3, "♭5": 1.7, "add9,add11": 1.3},
    "m": {"add9": 0.7, "add4": 1.0, "add♭6": 1.0, "♯5": 1.2},
    "aug": {"add9": 0.6},
    "sus4": {"add9": 0.5, "add6": 0.9, "add♭9": 1.0},
    "sus2": {"add6": 0.9},
    "6": {"♯11": 0.5, "add11": 0.9, "no3": 0.6},
    "m6": {"add11": 0.7},
    "6/9": {"♯11": 0.4},
    "7": {
        "♭5": 0.4, "♯5": 0.4, "♭9": 0.3, "♯9": 0.3, "♯11": 0.4, "♭13": 0.4, "♭5,♭9": 0.8, "♭5,♯9": 0.8,
        "♯5,♭9": 0.7, "♯5,♯9": 0.7, "♭9,♯9": 0.8, "♭9,♯11": 0.7, "♭9,♭13": 0.7, "♯9,♯11": 0.8, "♯9,♭13": 0.7,
        "♯11,♭13": 0.8, "♭9,♯11,♭13": 1.0, "♭9,♯9,♭13": 1.0, "add11": 0.9, "add13": 0.9, "no3": 0.7,
    },
    "maj7": {"♭5": 0.75, "♯5": 0.5, "♯9": 0.8, "♯11": 0.3, "add13": 0.9, "no3": 0.8},
    "m7": {"♯5": 0.9, "♭9": 0.8, "♭13": 0.9, "add11": 0.9, "add13": 0.9},
    "m7♭5": {"add11": 0.5, "♭9": 0.6, "♭13": 0.7},
    "dim7": {"add7": 0.7, "add9": 0.7, "add11": 0.7, "♭13": 0.8},
    "9": {"♭5": 0.8, "♯5": 0.4, "♯11": 0.3, "♭13": 0.4, "♯11,♭13": 0.7},
    "maj9": {"♯5": 0.5, "♯11": 0.3},
    "m9": {"♭5": 0.3},
    "m11": {"♭5": 0.4},
    "11": {"♭9": 0.5},
    "13": {"♭9": 0.3, "♯9": 0.4, "♯11": 0.3, "♭5": 0.8, "♯5": 0.6, "♭9,♯11": 0.6, "♯9,♯11": 0.7},
    "maj13": {"♯11": 0.3},
    "7sus4": {"♭9": 0.4, "♭9,♭13": 0.8, "add3": 0.7},
    "13sus4": {"♭9": 0.4},
    "maj9sus4": {"add13": 0.4},
}  # fmt: skip

_FIFTH_OF_A_TRIAD, _FIFTH_OF_A_SUS, _FIFTH_OF_A_SEVENTH, _FIFTH_OF_A_NINTH = 0.8, 0.5, 0.25, 0.15
_INNER_TENSION = 0.1
ROOT_LEFT_OUT = 1.1
"""Rootless voicings are usual where a bass plays the root, but any other full name comes first."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A chord on no root in particular. Sets of pitch classes above the root are bit masks: bit 7 is a fifth.

    ``lacks`` maps the tones that may be left out (0 is none, bits joined) to their cost.
    """

    quality: str
    changes: tuple[str, ...]
    cost: float
    tones: tuple[Tone, ...]
    mask: int
    lacks: tuple[tuple[int, float], ...]

    @property
    def plain(self) -> bool:
        """A triad or a seventh chord without changes, such as stand over a foreign bass."""
        return self.quality in ("", "m", "7", "maj7", "m7", "m7♭5", "dim", "dim7", "aug") and not self.changes

    @property
    def even(self) -> bool:
        """Whether it sounds alike from each of its tones."""
        return not self.changes and self.quality in ("dim7", "aug")

    def tone_at(self, semitones: int) -> Tone | None:
        """The tone at this distance above the root, counted inside one octave."""
        return next((tone for tone in self.tones if tone.semitones % 12 == semitones), None)


@cache
def vocabulary() -> tuple[Entry, ...]:
    """Every chord that has a name here."""
    found = [_entry(quality, (), cost) for quality, cost in QUALITY_COSTS.items()]
    for quality, many in CHANGE_COSTS.items():
        for changes, cost in many.items():
            found.append(_entry(quality, tuple(changes.split(",")), QUALITY_COSTS[quality] + cost))
    return tuple(found)


def _entry(quality: str, changes: tuple[str, ...], cost: float) -> Entry:
    chord = Chord.of(NoteName("C"), quality, changes)
    mask = 0
    for tone in chord.tones:
        mask |= 1 << tone.semitones % 12
    return Entry(chord.quality, chord.changes, cost, chord.tones, mask, _lacks(chord))


def _lacks(chord: Chord) -> tuple[tuple[int, float], ...]:
    """What players leave out of a chord and we still call it by its name: see the costs above.

    Of a seventh or more the fifth; of a thirteenth the ninth and the eleventh; of a ninth or more the root,
    where third and seventh stand for the chord. A triad keeps its third.
    """
    degrees = [tone.degree for tone in chord.tones]
    found = [(0, 0.0)]
    costs = {7: _fifth(chord, degrees)} if "5" in degrees else {}
    if any(number in chord.quality for number in ("11", "13")):
        costs |= {2: _INNER_TENSION} if "9" in degrees else {}
        costs |= {5: _INNER_TENSION} if "11" in degrees and "13" in degrees else {}
    for semitones, cost in costs.items():
        found += [(mask | 1 << semitones, before + cost) for mask, before in found if cost]
    if chord.seventh and {"3", "♭3"} & set(degrees) and len(degrees) > 4 and not _added(chord, degrees):
        found += [(mask | 1, before + ROOT_LEFT_OUT) for mask, before in found]
    return tuple(found)


def _added(chord: Chord, degrees: list[str]) -> bool:
    """Whether a chord is no plain stack, or holds a natural 11: of these the root is not left out."""
    return "11" in degrees or any(change.startswith(("add", "no")) for change in chord.changes)


def _fifth(chord: Chord, degrees: list[str]) -> float:
    """What a missing fifth costs; 0 where it cannot be missed."""
    if "no3" in chord.changes or (chord.triad in ("suspended", "power") and len(degrees) < 4):
        return 0.0
    if chord.triad == "suspended":
        return _FIFTH_OF_A_SUS
    if len(degrees) > 4:
        return _FIFTH_OF_A_NINTH
    return _FIFTH_OF_A_SEVENTH if chord.seventh else _FIFTH_OF_A_TRIAD

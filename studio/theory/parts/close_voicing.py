"""Chords as a pianist would first put them under the hands: close position around middle C, the bass in the left.

The right hand holds the tones of the chord in close position, in the inversion that moves least from the chord
before and stays near middle C; the left hand holds the note that the symbol puts in the bass. Where a chord has more
than four tones the right hand leaves the root to the left, then the perfect fifth, then what lies under its highest
tension. Common practice of accompanying from chord symbols.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import mean

from studio.music.chord import Chord
from studio.music.pitch import NATURAL_SEMITONES, NoteName, Pitch

MIDDLE = 64
"""MIDI number around which the right hand stays: E4, the middle of C4 to G4 and their neighbours."""

LOWEST_BASS = 41
"""The bass lies in the octave from F2 up."""

LOWEST_RIGHT = 53
"""The right hand goes down to F3: close thirds sound thick below it."""

MOST = 4
"""Tones that the right hand holds."""

_PULL = 0.35
"""How much each half step away from the middle counts against half steps of motion."""


@dataclass(frozen=True, slots=True)
class CloseVoicing:
    """A chord under two hands: the left hand's note, and the right hand's from low to high."""

    bass: Pitch
    upper: tuple[Pitch, ...]


def close_voicings(chords: Sequence[Chord]) -> tuple[CloseVoicing, ...]:
    """Each chord of a progression in close position, one led into the next.

    >>> from studio.music.chord_reader import read_chord
    >>> [" ".join(map(str, (v.bass, *v.upper))) for v in close_voicings([read_chord("C"), read_chord("F/A")])]
    ['C3 C4 E4 G4', 'A2 C4 F4 A4']
    """
    found: list[CloseVoicing] = []
    before: tuple[Pitch, ...] = ()
    for chord in chords:
        before = min(_positions(_right_hand(chord)), key=lambda upper: _cost(upper, before))
        found.append(CloseVoicing(_at_or_above(chord.lowest, LOWEST_BASS), before))
    return tuple(found)


def _right_hand(chord: Chord) -> tuple[NoteName, ...]:
    """The tones that the right hand holds, root first."""
    tones = list(chord.tones)
    by_rank = [
        *(tone for tone in tones if tone.degree == "1"),
        *(tone for tone in tones if tone.degree == "5"),
        *(tone for tone in tones if tone.degree in ("9", "11")),
        *tones[::-1],
    ]
    for tone in by_rank:
        if len(tones) <= MOST:
            break
        if tone in tones:
            tones.remove(tone)
    return tuple(chord.root.transposed(tone.letters, tone.semitones) for tone in tones)


def _positions(names: Sequence[NoteName]) -> list[tuple[Pitch, ...]]:
    """Every close position whose lowest note lies in the octave from the lowest that sounds clear, or above it."""
    ordered = sorted(names, key=lambda name: name.pc)
    found = []
    for turn in range(len(ordered)):
        for octave in (0, 12):
            least, upper = LOWEST_RIGHT + octave, []
            for name in (*ordered[turn:], *ordered[:turn]):
                upper.append(_at_or_above(name, least))
                least = upper[-1].midi + 1
            found.append(tuple(upper))
    return found


def _cost(upper: Sequence[Pitch], before: Sequence[Pitch]) -> tuple[float, int]:
    """How far the hand moves and how far it is from the middle; of equals the lower one."""
    heights = [pitch.midi for pitch in upper]
    moved = sum(min(abs(pitch.midi - old.midi) for pitch in upper) for old in before)
    moved += sum(min(abs(pitch.midi - old.midi) for old in before) for pitch in upper) if before else 0
    return moved / 2 + _PULL * abs(mean(heights) - MIDDLE) * len(heights), heights[0]


def _at_or_above(name: NoteName, least: int) -> Pitch:
    """The lowest pitch of a name that is not under a MIDI number."""
    base = NATURAL_SEMITONES[name.step] + name.alter
    octave = -(-(least - base) // 12) - 1
    return Pitch(name, octave)

"""Chords as a pianist would first put them under the hands: close position around middle C, the bass in the left.

The right hand holds the tones of the chord in close position, in the inversion that moves least from the chord
before and stays near middle C; the left hand holds the note that the symbol puts in the bass. A third or seventh in
the bass is heard well enough there, and is not doubled where three other tones remain; nor is a leading tone in the
bass that goes up to the next chord's, since the two would go up in octaves. Where a chord still has more than four
tones the right hand leaves the root to the left, then the perfect fifth, then what lies under its highest tension.
Common practice of accompanying from chord symbols.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import zip_longest
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

_DOUBLED_BADLY = (3, 7)
"""Numbers of the tones that stand out where they are doubled."""

_ENOUGH = 3
"""Tones beside a third or seventh in the bass that are a right hand of their own."""

_FEWEST = 2
"""Tones that the right hand holds at least."""

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
    for chord, after in zip_longest(chords, chords[1:]):
        before = min(_positions(_right_hand(chord, after)), key=lambda upper: _cost(upper, before))
        found.append(CloseVoicing(_at_or_above(chord.lowest, LOWEST_BASS), before))
    return tuple(found)


def _right_hand(chord: Chord, after: Chord | None) -> tuple[NoteName, ...]:
    """The tones that the right hand holds, root first; `after` is the chord that follows."""
    others = [tone for tone in chord.tones if tone != chord.bass_tone]
    tones = others if _left_alone(chord, after, len(others)) else list(chord.tones)
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


def _left_alone(chord: Chord, after: Chord | None, others: int) -> bool:
    """Whether only the left hand holds the tone in the bass, beside so many others."""
    tone = chord.bass_tone
    if tone is None:
        return False
    if tone.number in _DOUBLED_BADLY and others >= _ENOUGH:
        return True
    leading = tone.degree == "3" or (tone.degree == "1" and chord.triad == "diminished")
    rises = after is not None and (after.lowest.pc - chord.lowest.pc) % 12 == 1
    return leading and rises and others >= _FEWEST


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

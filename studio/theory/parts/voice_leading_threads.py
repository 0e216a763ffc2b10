"""Voices through a row of chords as their symbols alone allow it: each voice goes on from where it has got to.

The first chord stands in close position over its root, in the octave around middle C. From there every note moves
as ``voice_leading`` pairs it, up or down by that many half steps. Two notes that lead to one meet there, and a note
that leads to two splits, so that no note of a chord is missing; of a thick chord only its core is led
(``voice_leading_core``). Voices that would cross change places, which is never further in all: C–A over a held B
becomes C–B and B–A.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from studio.music.chart import ChordAt
from studio.music.chord import Chord
from studio.music.pitch import NATURAL_SEMITONES, NoteName, Pitch
from studio.theory.parts.voice_leading import Leading, Move, leadings
from studio.theory.parts.voice_leading_core import core_notes
from studio.theory.parts.voice_leading_written import VoiceMove

_LOWEST_ROOT = 55  # MIDI number of G3: roots stand from here up to F♯4


@dataclass(frozen=True, slots=True)
class Thread:
    """One chord with the pitches that its voices have got to, from low to high, and how they go on.

    ``leading`` and ``moves`` lead to the next chord: None and empty for the last. Both tell of the same voices.
    """

    at: ChordAt
    pitches: tuple[Pitch, ...]
    leading: Leading | None
    moves: tuple[VoiceMove, ...]


def threads(chords: Sequence[ChordAt]) -> tuple[Thread, ...]:
    """The voices through chords that follow one another; a chord struck again goes on, and N.C. is passed over."""
    sounding = [at for at in chords if at.chord is not None]
    kept = [joined(list(run)) for _, run in groupby(sounding, key=lambda at: at.chord)]
    if not kept:
        return ()
    assert kept[0].chord is not None
    pitches = close_position(kept[0].chord)
    found = []
    for at, leading in zip(kept, (*leadings(kept, core_notes), None), strict=True):
        moves = _uncrossed(_moves(pitches, leading.moves)) if leading is not None else ()
        leading = _of_voices(leading, moves) if leading is not None else None
        found.append(Thread(at, pitches, leading, moves))
        ends = {move.end.midi: move.end for move in moves}
        pitches = tuple(ends[midi] for midi in sorted(ends))
    return tuple(found)


def joined(run: Sequence[ChordAt]) -> ChordAt:
    """Chords that are one chord struck again, as one that lasts from the first to the last."""
    return ChordAt(run[0].start, run[-1].end - run[0].start, run[0].chord)


def close_position(chord: Chord) -> tuple[Pitch, ...]:
    """The notes of a chord that are led one over the other, each as near over the last as it can be."""
    pitches: list[Pitch] = []
    for name in core_notes(chord):
        lowest = pitches[-1].midi + 1 if pitches else _LOWEST_ROOT
        pitches.append(_pitched(name, lowest + (name.pc - lowest) % 12))
    return tuple(pitches)


def _moves(pitches: Sequence[Pitch], moves: Sequence[Move]) -> tuple[VoiceMove, ...]:
    """The moves of note names as moves of the pitches that the voices have got to, from low to high."""
    by_note: dict[int, list[Move]] = defaultdict(list)
    for move in sorted(moves, key=lambda move: move.semitones):
        by_note[move.start.pc].append(move)
    led: list[VoiceMove] = []
    for pc, ways in by_note.items():
        own = [pitch for pitch in pitches if pitch.name.pc == pc]
        for number in range(max(len(own), len(ways))):
            start, way = own[min(number, len(own) - 1)], ways[min(number, len(ways) - 1)]
            led.append(VoiceMove(start, _pitched(way.end, start.midi + way.semitones)))
    return tuple(sorted(led, key=lambda move: (move.start.midi, move.end.midi)))


def _uncrossed(moves: Sequence[VoiceMove]) -> tuple[VoiceMove, ...]:
    """The moves with the ends of voices that cross exchanged, until none do: the lower voice stays the lower.

    Voices that start or end on one note do not cross.
    """
    starts = [move.start for move in moves]
    ends = sorted((move.end for move in moves), key=lambda pitch: pitch.midi)
    return tuple(map(VoiceMove, starts, ends))


def _of_voices(leading: Leading, moves: Sequence[VoiceMove]) -> Leading:
    """A leading that tells of the voices as they go."""
    told = tuple(Move(move.start.name, move.end.name, move.semitones) for move in moves)
    return replace(
        leading,
        moves=told,
        total=sum(abs(move.semitones) for move in told),
        half_steps=tuple(move for move in told if abs(move.semitones) == 1),
    )


def _pitched(name: NoteName, midi: int) -> Pitch:
    """The pitch of that name with that MIDI number, which is one of the name's."""
    return Pitch(name, (midi - NATURAL_SEMITONES[name.step] - name.alter) // 12 - 1)

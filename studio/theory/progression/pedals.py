"""Pedal points: one bass note that stays while the chords over it change.

It lies under three or more harmonies in a row, each on another root than the one before; a tonic six-four that
only holds back V, with or without its seventh, makes two, and is none. Notes that chord symbols have in common
are no pedal: perhaps nobody holds them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Literal

from studio.music.key import Key
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.progression.stretches import Sound, span_of, stretches

PedalKind = Literal["tonic", "dominant", "other"]

_BASS_HARMONIES = 3


@dataclass(frozen=True, slots=True)
class Pedal:
    """A pedal point. ``notes`` is the one bass note, as its first chord spells it; ``chords`` counts the chords."""

    kind: PedalKind
    notes: tuple[NoteName, ...]
    span: Span
    chords: int
    reason: str
    sureness: float
    runner_up: str = ""


def find_pedals(readings: Sequence[Reading]) -> tuple[Pedal, ...]:
    """The pedal points of a progression in their order; N.C. ends one."""
    found: list[Pedal] = []
    for stretch in stretches(readings):
        found += _bass_pedals(stretch)
    return tuple(found)


def _bass_pedals(stretch: Sequence[Sound]) -> list[Pedal]:
    found = []
    for _, run in groupby(stretch, key=lambda sound: sound.chord.lowest.pc):
        sounds = list(run)
        roots = [root for root, _ in groupby(sound.chord.root.pc for sound in sounds)]
        if len(roots) < _BASS_HARMONIES:
            continue
        note = sounds[0].chord.lowest
        foreign = any(sound.chord.bass_tone is None for sound in sounds)
        found.append(
            Pedal(
                kind=_kind(note, sounds[0].key),
                notes=(note,),
                span=span_of(sounds),
                chords=len(sounds),
                reason=f"{note} stays in the bass while the chords over it change.",
                sureness=0.95 if foreign else 0.8,
            )
        )
    return found


def _kind(note: NoteName, key: Key) -> PedalKind:
    kinds: dict[int, PedalKind] = {0: "tonic", 7: "dominant"}
    return kinds.get(key.above(note), "other")

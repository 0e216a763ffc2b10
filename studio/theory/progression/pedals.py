"""Pedal points: one note that stays while the chords over it, or around it, change.

A bass pedal is one bass note under three or more harmonies in a row with at least two roots; a tonic six-four
that only holds back V has two, and is none. Held notes above (the two common tones that ring through an
acoustic guitar's Em7 G Dsus4 A7sus4) count when two notes at least belong to four or more harmonies in a row.
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
from studio.theory.progression.harmonies import above, bass_of, chord_of

PedalKind = Literal["tonic", "dominant", "other", "held above"]

_BASS_CHORDS, _HELD_CHORDS, _HELD_NOTES = 3, 4, 2


@dataclass(frozen=True, slots=True)
class Pedal:
    """A pedal point. ``notes`` is the one bass note, or the notes held above; ``chords`` counts the harmonies."""

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
    for silent, sounding in groupby(readings, key=lambda reading: reading.at.chord is None):
        if not silent:
            stretch = _changes(list(sounding))
            found += _bass_pedals(stretch)
            found += _held_above(stretch)
    return tuple(sorted(found, key=lambda pedal: (pedal.span.start, pedal.kind == "held above")))


def _changes(readings: Sequence[Reading]) -> list[list[Reading]]:
    """The readings in groups that are one chord, struck again."""
    return [list(group) for _, group in groupby(readings, key=chord_of)]


def _bass_pedals(stretch: Sequence[list[Reading]]) -> list[Pedal]:
    found = []
    for _, run in groupby(stretch, key=lambda group: bass_of(chord_of(group[0])).pc):
        groups = list(run)
        chords = [chord_of(group[0]) for group in groups]
        if len(groups) >= _BASS_CHORDS and len({chord.root.pc for chord in chords}) > 1:
            foreign = any(chord.bass_tone is None for chord in chords)
            note, key = bass_of(chords[0]), groups[0][0].key
            reason = f"{note} stays in the bass while the chords over it change."
            found.append(
                Pedal(_kind(note, key), (note,), _span(groups), len(groups), reason, 0.95 if foreign else 0.8)
            )
    return found


def _kind(note: NoteName, key: Key) -> PedalKind:
    kinds: dict[int, PedalKind] = {0: "tonic", 7: "dominant"}
    return kinds.get(above(note, key), "other")


def _held_above(stretch: Sequence[list[Reading]]) -> list[Pedal]:
    """Longest stretches through which at least two notes hold, over at least three different roots."""
    found, start = [], 0
    while start < len(stretch):
        common, end = chord_of(stretch[start][0]).pcs, start + 1
        while end < len(stretch) and len(common & chord_of(stretch[end][0]).pcs) >= _HELD_NOTES:
            common &= chord_of(stretch[end][0]).pcs
            end += 1
        groups = stretch[start:end]
        roots = {chord_of(group[0]).root.pc for group in groups}
        basses = {bass_of(chord_of(group[0])).pc for group in groups}
        if len(groups) >= _HELD_CHORDS and len(roots) > 2 and len(basses) > 1:
            notes = tuple(note for note in chord_of(groups[0][0]).notes() if note.pc in common)
            names = " and ".join(map(str, notes))
            reason = f"{names} belong to all {len(groups)} chords in a row."
            found.append(Pedal("held above", notes, _span(groups), len(groups), reason, 0.7))
            start = end
        else:
            start += 1
    return found


def _span(groups: Sequence[list[Reading]]) -> Span:
    return Span(groups[0][0].at.start, groups[-1][-1].at.end)

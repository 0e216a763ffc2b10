"""A chord where it stands: what decides its reading, and the different harmonies on both sides of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from studio.music.chart import ChordAt
from studio.music.chord import Chord
from studio.theory.harmony.belonging import core_pcs
from studio.theory.harmony.numeral_writing import with_bass_seventh

WITH_THIRD = ("major", "minor", "diminished", "augmented")
_MODELS = {"major": ("", "7"), "minor": ("m", "m7"), "diminished": ("dim", "m7♭5"), "augmented": ("aug", "7")}


@dataclass(frozen=True, slots=True)
class Standing:
    """A chord among its neighbours.

    ``written`` is the chord as the chart has it, ``chord`` what is read of it: the lower chord of a polychord,
    with a seventh in the bass counted in (C/B♭ is C7/B♭). ``model`` decides the reading: the chord itself or,
    for a sus or power chord, what ``beside``, the next chord on its root with a third, makes of it. ``before``
    and ``after`` are the nearest different harmonies, through silence and repetitions; None at the ends.
    ``sways`` is whether the chord goes to and fro with the one before it, here or elsewhere in the chart.
    """

    written: Chord
    chord: Chord
    model: Chord
    before: Chord | None
    after: Chord | None
    beside: Chord | None = None
    sways: bool = False

    @property
    def leads_on(self) -> bool:
        """Whether a chord leads on even without a seventh.

        It does if it has just been minor, or if its third lies in the bass and rises a half step to the next.
        """
        before, after, root = self.before, self.after, self.model.root.pc
        if before is not None and before.root.pc == root and before.triad == "minor":
            return True
        bass = self.chord.lowest.pc
        return bass == (root + 4) % 12 and after is not None and after.lowest.pc == (root + 5) % 12

    def repeats(self, other: Standing) -> bool:
        """Whether the other is this chord again, over the same bass, whatever its upper colours are."""
        here, there = self.chord, other.chord
        return (
            here.root.pc == there.root.pc
            and here.lowest.pc == there.lowest.pc
            and core_pcs(self.model) == core_pcs(other.model)
        )


def standings(chords: Sequence[ChordAt]) -> tuple[Standing | None, ...]:
    """Where each chord of a chart stands, in order; None for N.C."""
    sounding = [place for place, at in enumerate(chords) if at.chord is not None]
    written = [chord for at in chords if (chord := at.chord) is not None]
    before = _different(written)
    after = _different(written[::-1])[::-1]
    lower = [lower_chord(chord) for chord in written]
    swaying = {_pair(*trio[:2]) for trio in zip(before, lower, after, strict=True) if _is_to_and_fro(*trio)}
    found: list[Standing | None] = [None] * len(chords)
    for count, place in enumerate(sounding):
        beside = _beside(written, count)
        found[place] = Standing(
            written[count],
            lower[count],
            _model(lower[count], beside),
            before[count],
            after[count],
            beside,
            _pair(before[count], lower[count]) in swaying,
        )
    return tuple(found)


def _is_to_and_fro(before: Chord | None, chord: Chord, after: Chord | None) -> bool:
    return before is not None and before == after


def _pair(before: Chord | None, chord: Chord) -> tuple[object, ...]:
    """A chord and the one before it, whatever their colours are."""
    return (
        None if before is None else (before.root.pc, before.triad),
        chord.root.pc,
        chord.lowest.pc,
        chord.triad,
    )


def lower_chord(chord: Chord) -> Chord:
    """The chord that is read: of a polychord the lower one, and with a seventh in the bass counted in."""
    lower = chord if chord.upper is None else replace(chord, upper=None)
    return with_bass_seventh(lower)


def same_harmony(one: Chord, two: Chord) -> bool:
    """Whether two chords are one harmony: same root and no change from minor to major or back."""
    if one.root.pc != two.root.pc:
        return False
    kinds = {{"augmented": "major"}.get(chord.triad, chord.triad) for chord in (one, two)}
    return len(kinds & set(WITH_THIRD)) < 2


def _different(chords: Sequence[Chord]) -> list[Chord | None]:
    """For each chord the nearest one before it that is another harmony."""
    found: list[Chord | None] = []
    other: Chord | None = None
    for place, chord in enumerate(chords):
        if place and not same_harmony(chords[place - 1], chord):
            other = lower_chord(chords[place - 1])
        found.append(other)
    return found


def _beside(chords: Sequence[Chord], place: int) -> Chord | None:
    """The chord from which a sus or power chord takes its third: the one after or before it on its root."""
    chord = lower_chord(chords[place])
    if chord.triad in WITH_THIRD:
        return None
    for line in (chords[place + 1 :], chords[:place][::-1]):
        on_root = takewhile(lambda other: other.root.pc == chord.root.pc, line)
        beside = next((other for other in on_root if other.triad in WITH_THIRD), None)
        if beside is not None:
            return beside
    return None


def _model(chord: Chord, beside: Chord | None) -> Chord:
    """The chord with its third, which a sus or power chord takes from the one beside it."""
    if beside is None:
        return chord
    triad, seventh = _MODELS[beside.triad]
    return Chord.of(chord.root, seventh if chord.seventh == "♭7" else triad)

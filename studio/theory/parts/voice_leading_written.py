"""Voice leading between written voicings: who moves where, the outer voices, parallel fifths and octaves.

Voices are counted from the lowest note up, so that crossing parts are heard as what they sound like. Where
two voicings have different numbers of notes, notes are doubled so that the motion stays smallest and no voices
cross. Parallels are noted, not blamed: a power-chord riff is made of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise
from typing import Literal

from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.parts.slices import InOrder, held_at

Motion = Literal["contrary", "similar", "parallel", "oblique", "none"]
Interval = Literal["fifths", "octaves", "unisons"]

_FIFTH = (4, 7)  # letters and semitones above the lower note, octaves aside


@dataclass(frozen=True, slots=True)
class VoiceMove:
    """One voice from pitch to pitch; half steps, down is negative."""

    start: Pitch
    end: Pitch

    @property
    def semitones(self) -> int:
        """Half steps, down is negative."""
        return self.end.midi - self.start.midi


@dataclass(frozen=True, slots=True)
class Parallel:
    """Two voices, counted from 0 for the lowest, that keep a perfect interval while both move the same way."""

    lower: int
    upper: int
    interval: Interval


@dataclass(frozen=True, slots=True)
class WrittenLeading:
    """The motion from one written voicing to the next.

    ``voices`` run from the lowest to the highest; ``total`` is half steps in all; ``held`` are pitches that
    stay where they are; ``outer`` is how the lowest and the highest voice move against each other, "none"
    with fewer than two voices or when neither moves.
    """

    span: Span
    voices: tuple[VoiceMove, ...]
    total: int
    held: tuple[Pitch, ...]
    half_steps: tuple[VoiceMove, ...]
    outer: Motion
    parallels: tuple[Parallel, ...]
    reason: str
    sureness: float = 1.0
    runner_up: str = ""


def written_leadings(notes: Sequence[Note], moments: Sequence[Fraction]) -> tuple[WrittenLeading, ...]:
    """The leading from what sounds at each moment to what sounds at the next; silent moments are passed over."""
    ordered = InOrder(notes)
    heard = [(at, pitches) for at in moments if (pitches := _pitches(ordered, at))]
    return tuple(
        written_leading(one, two, Span(start, max(start, end)))
        for (start, one), (end, two) in pairwise(heard)
    )


def written_leading(one: Sequence[Pitch], two: Sequence[Pitch], span: Span) -> WrittenLeading:
    """The leading between two voicings, in any order of their notes; without notes there are no voices."""
    voices = tuple(VoiceMove(start, end) for start, end in _voices(_from_below(one), _from_below(two)))
    outer = motion_of(voices[0], voices[-1]) if len(voices) > 1 else "none"
    return WrittenLeading(
        span=span,
        voices=voices,
        total=sum(abs(voice.semitones) for voice in voices),
        held=tuple(voice.start for voice in voices if voice.semitones == 0),
        half_steps=tuple(voice for voice in voices if abs(voice.semitones) == 1),
        outer=outer,
        parallels=_parallels(voices),
        reason=_reason(voices, outer),
    )


def motion_of(lower: VoiceMove, upper: VoiceMove) -> Motion:
    """How two voices move against each other, by what sounds.

    Parallel is similar motion that keeps the interval's number (a third stays a third, major or minor, an
    octave more or less is another interval), as textbooks count it.
    """
    one, two = lower.semitones, upper.semitones
    if one == 0 or two == 0:
        return "none" if one == two else "oblique"
    if (one > 0) != (two > 0):
        return "contrary"
    before, after = (high.height - low.height for low, high in _pairs(lower, upper))
    return "parallel" if before == after else "similar"


def parallel_interval(lower: VoiceMove, upper: VoiceMove) -> Interval | None:
    """The perfect interval that two voices keep while they move the same way; None if they keep none.

    Fifths and octaves count whatever octaves lie between; a fifth that becomes diminished is not kept.
    """
    if lower.semitones == 0 or upper.semitones == 0 or (lower.semitones > 0) != (upper.semitones > 0):
        return None
    kinds = {_perfect(low, high) for low, high in _pairs(lower, upper)}
    return kinds.pop() if len(kinds) == 1 else None


def _pitches(ordered: InOrder, at: Fraction) -> tuple[Pitch, ...]:
    """The pitches that sound at a moment, from the lowest up; a unison counts once."""
    held, _ = held_at(ordered.near(Span(at, at)), at)
    pitches = {note.pitch.midi: note.pitch for note in held}
    return tuple(pitches[midi] for midi in sorted(pitches))


def _pairs(lower: VoiceMove, upper: VoiceMove) -> tuple[tuple[Pitch, Pitch], tuple[Pitch, Pitch]]:
    return (lower.start, upper.start), (lower.end, upper.end)


def _perfect(low: Pitch, high: Pitch) -> Interval | None:
    letters, semitones = high.height - low.height, high.midi - low.midi
    if (letters % 7, semitones % 12) == _FIFTH:
        return "fifths" if semitones > 0 else None
    if letters % 7 == 0 and semitones % 12 == 0:
        return "octaves" if letters else "unisons"
    return None


def _parallels(voices: Sequence[VoiceMove]) -> tuple[Parallel, ...]:
    pairs = combinations(enumerate(voices), 2)
    found = ((low, high, parallel_interval(lower, upper)) for (low, lower), (high, upper) in pairs)
    return tuple(Parallel(low, high, interval) for low, high, interval in found if interval is not None)


def _from_below(pitches: Iterable[Pitch]) -> list[Pitch]:
    return sorted(pitches, key=lambda pitch: (pitch.midi, pitch.height))


def _voices(one: list[Pitch], two: list[Pitch]) -> list[tuple[Pitch, Pitch]]:
    """The pairs of pitches, doubled where one voicing has fewer, none of them crossing."""
    if not one or not two:
        return []
    if len(one) > len(two):
        return [(start, end) for end, start in _voices(two, one)]
    # best[i] is the least motion, and its partners, with one[i] as the partner of the last of two so far.
    best: list[tuple[int, tuple[int, ...]] | None] = [(_far(one[0], two[0]), (0,))] + [None] * (len(one) - 1)
    for note in two[1:]:
        nearer = [
            min(filter(None, best[max(place - 1, 0) : place + 1]), default=None) for place in range(len(one))
        ]
        best = [
            None if way is None else (way[0] + _far(one[place], note), (*way[1], place))
            for place, way in enumerate(nearer)
        ]
    reached = best[-1]
    assert reached is not None, "there are as many steps up as notes to reach"
    return [(one[place], note) for place, note in zip(reached[1], two, strict=True)]


def _far(one: Pitch, two: Pitch) -> int:
    return abs(one.midi - two.midi)


def _reason(voices: Sequence[VoiceMove], outer: Motion) -> str:
    if len(voices) < 2:
        return "Fewer than two voices sound."
    return {
        "none": "The outer voices stay.",
        "oblique": "One outer voice stays and the other moves.",
        "contrary": "The outer voices move in contrary motion.",
        "similar": "The outer voices move the same way.",
        "parallel": "The outer voices move in parallel.",
    }[outer]

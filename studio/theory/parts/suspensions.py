"""Suspended notes in what sounds: a fourth that steps down to the third, and notes held over from before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.parts.bass_and_name import name_over_bass, over_bass

if TYPE_CHECKING:
    from studio.theory.parts.sounding import Sounding

_SUSPENDED = {
    "": "sus4",
    "m": "sus4",
    "7": "7sus4",
    "m7": "7sus4",
    "maj7": "maj7sus4",
    "9": "9sus4",
    "m9": "9sus4",
}
_BREATH = Fraction(1, 2)  # quarter notes of rest over which a line still hangs together
_BETTER = 0.03  # how much surer the chord of the held note must be to be the one that is heard


def with_resolutions(found: Sequence[Sounding]) -> tuple[Sounding, ...]:
    """The same soundings, with each suspended fourth that the next one resolves told so.

    D G C that goes on to D F♯ C is D7sus4, whatever else those notes might be called.
    """
    linked = [*found]
    for place, (one, two) in enumerate(pairwise(found)):
        if two.chord is not None and one.span.end == two.span.start and len(one.pitches) > 1:
            linked[place] = _resolved(one, two, two.chord)
    return tuple(linked)


def _resolved(one: Sounding, two: Sounding, after: Chord) -> Sounding:
    third = next((tone for tone in after.tones if tone.number == 3), None)
    if third is None:
        return one
    fourth, goal = after.root.transposed(3, 5), after.root.transposed(third.letters, third.semitones)
    chord = one.chord
    if chord is None or chord.root != after.root or "sus4" not in chord.quality:
        early, late = ({pitch.name.pc for pitch in sounding.pitches} for sounding in (one, two))
        if early != late - {goal.pc} | {fourth.pc} or after.quality not in _SUSPENDED or after.changes:
            return one
        chord = Chord.of(after.root, _SUSPENDED[after.quality], (), one.pitches[0].name)
    reason = f"{fourth} steps down to {goal}, the third of {after.text}."
    return replace(one, chord=chord, resolves_to=after, reason=reason)


def without_held_over(
    inside: Sequence[Note], passing: frozenset[Note], span: Span, key: Key | None, written: Chord | None
) -> frozenset[Note]:
    """What passes, once notes that are held over from before and step down are heard as suspensions.

    ``passing`` is what ``ornaments`` found. Of a held note and the step to which it goes on, the one is kept
    that makes the surer chord. A fourth that goes on to the third is kept with it: it has a name, sus4.
    """
    for held, goal in _stepping_down(inside, span):
        rest = [n for n in inside if n is not held and n is not goal and n not in passing]
        one, two = (name_over_bass(over_bass([*rest, note], span.start), key) for note in (held, goal))
        if two is None or two.chord is None or (one is not None and one.sureness > two.sureness + _BETTER):
            continue
        passing -= {goal}
        third = (goal.pitch.name.pc - two.chord.root.pc) % 12 in (3, 4)
        fourth = third and (held.pitch.name.pc - two.chord.root.pc) % 12 == 5
        if not fourth and (written is None or held.pitch.name.pc not in written.pcs):
            passing |= {held}
    return passing


def _stepping_down(inside: Sequence[Note], span: Span) -> Iterator[tuple[Note, Note]]:
    """The notes held over into a span, each with the note a step below to which it goes on within it.

    The held note sounds nowhere else in the span.
    """
    counts = Counter(note.pitch.name.pc for note in inside)
    for held in inside:
        if held.onset >= span.start or held.end >= span.end or counts[held.pitch.name.pc] > 1:
            continue
        for goal in inside:
            below = held.pitch.midi - goal.pitch.midi in (1, 2)
            if below and held.end <= goal.onset <= held.end + _BREATH:
                yield held, goal


def parted(span: Span, notes: Sequence[Note], key: Key | None) -> Iterator[tuple[Span, Sequence[Note]]]:
    """The span with its notes, cut where a fourth of a broken chord gives way to its third for good.

    All other notes then count on both sides, since a broken chord takes time to be heard.
    """
    for fourth, third, cut in _given_way(notes):
        early = [note for note in notes if note.pitch.name.pc != third]
        late = [note for note in notes if note.pitch.name.pc != fourth]
        if cut > span.start and _is_suspension(
            over_bass(early, span.start), over_bass(late, span.start), key
        ):
            yield Span(span.start, cut), early
            yield Span(cut, span.end), late
            return
    yield span, notes


def _given_way(notes: Sequence[Note]) -> Iterator[tuple[int, int, Fraction]]:
    """Pitch classes of which the first stops for good before the second, a step below it, ever sounds."""
    starts: dict[int, Fraction] = {}
    ends: dict[int, Fraction] = {}
    for note in notes:
        pc = note.pitch.name.pc
        starts[pc] = min(starts.get(pc, note.onset), note.onset)
        ends[pc] = max(ends.get(pc, note.end), note.end)
    heights = {note.pitch.midi for note in notes}
    for high in sorted(heights):
        for low in (high - 1, high - 2):
            if low in heights and ends[high % 12] <= starts[low % 12]:
                yield high % 12, low % 12, ends[high % 12]


def _is_suspension(early: tuple[Pitch, ...], late: tuple[Pitch, ...], key: Key | None) -> bool:
    one, two = name_over_bass(early, key), name_over_bass(late, key)
    if one is None or two is None or one.chord is None or two.chord is None:
        return False
    return (
        one.chord.root == two.chord.root and one.chord.triad == "suspended" and two.chord.triad != "suspended"
    )

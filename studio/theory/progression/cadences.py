"""Cadences, where phrases end.

The rule. A cadence is an arrival, not a pair of chords: V–I in the middle of a phrase or inside a loop is
motion, and is not listed. A cadence is looked for

- at the end of each phrase, which are given, or else are taken to be four bars long from the start of their
  section (``phrases.py``);
- where a harmony arrives in the second half of the phrase, on a strong point (the first beat of a bar or the
  middle of it; anywhere if the phrases are given, since then somebody has heard where they end), and lasts
  to the phrase's end, or is followed by no more than a turnaround back;
- but not where a loop of four bars or less merely comes round: there only the end of the section counts.

A phrase that stops on V is half closed even if the next one starts with I; that reading is the runner-up.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading
from studio.theory.progression.cadence_formulas import CadenceKind, Formula, formula, is_dominant
from studio.theory.progression.harmonies import Harmony, above, harmonies
from studio.theory.progression.loops import smallest_loop
from studio.theory.progression.phrases import BARS, four_bar_phrases

# How much the place adds to the chords: a section's end is an end; four bars are only a habit.
_SECTION_END, _GIVEN_PHRASE, _FOUR_BARS, _TURNAROUND = 1.0, 0.95, 0.8, 0.85


@dataclass(frozen=True, slots=True)
class Cadence:
    """A cadence. ``at`` is where its last harmony arrives; ``span`` runs from the first chord of the formula
    to the end of the arrival; ``numerals`` are its harmonies; ``of`` names the degree that it closes on where
    that is not the tonic ("vi"). ``runner_up`` is another name that is defensible, "" if none is.
    """

    kind: CadenceKind
    at: Fraction
    span: Span
    key: Key
    numerals: tuple[str, ...]
    reason: str
    sureness: float
    runner_up: str = ""
    of: str = ""


def find_cadences(
    readings: Sequence[Reading],
    time: SongTime,
    sections: Sequence[Span] = (),
    melody: Sequence[Note] = (),
    phrases: Sequence[Span] = (),
) -> tuple[Cadence, ...]:
    """The cadences of a progression, in their order.

    ``sections`` are the parts of the form (all the readings are one if there are none); ``phrases``, if given,
    replace the four-bar guess; ``melody`` tells perfect from imperfect where it is given. No readings, no
    cadences.
    """
    chords = harmonies(readings)
    if not chords:
        return ()
    whole = Span(readings[0].at.start, readings[-1].at.end)
    parts = [cut for part in sections if (cut := part.intersection(whole)) is not None] or [whole]
    search = _Search(
        chords, readings, time, tuple(melody), frozenset(part.end for part in parts), bool(phrases)
    )
    ends = phrases or four_bar_phrases(parts, time)
    usual = _GIVEN_PHRASE if phrases else _FOUR_BARS
    loops = [part for part in parts if _is_loop(readings, part, time)]
    found = []
    for phrase in ends:
        if any(loop.start < phrase.end < loop.end for loop in loops):
            continue
        cadence = search.at_end_of(phrase, usual)
        if cadence is not None:
            found.append(cadence)
    return tuple(found)


def last_cadence(readings: Sequence[Reading], time: SongTime, melody: Sequence[Note] = ()) -> Cadence | None:
    """The cadence that closes a stretch of music, or else the last one in it; None if it has none."""
    return next(reversed(find_cadences(readings, time, (), melody)), None)


def _is_loop(readings: Sequence[Reading], part: Span, time: SongTime) -> bool:
    inside = [reading for reading in readings if part.contains(reading.at.start)]
    loop = smallest_loop(inside)
    return loop.times > 1 and loop.length <= BARS * time.meter(time.bar_at(part.start)).bar


@dataclass(frozen=True, slots=True)
class _Search:
    chords: tuple[Harmony, ...]
    readings: Sequence[Reading]
    time: SongTime
    melody: tuple[Note, ...]
    section_ends: frozenset[Fraction]
    phrases_given: bool

    def at_end_of(self, phrase: Span, usual: float) -> Cadence | None:
        """The cadence of one phrase; ``usual`` is how far its end is to be trusted if no section ends there."""
        starts = [harmony.span.start for harmony in self.chords]
        last = bisect_left(starts, phrase.end) - 1
        if last < 0 or self.chords[last].span.end <= phrase.start:
            return None
        trust = _SECTION_END if phrase.end in self.section_ends else usual
        closing = self._formula(last) if self._arrives(last, phrase) else None
        if closing is not None and closing.kind not in ("half", "Phrygian half"):
            return self._cadence(last, closing, phrase, trust)
        earlier = self._home_before_tail(last, phrase)
        if earlier is not None and self._is_turnaround(earlier[0], last, phrase):
            return self._cadence(*earlier, phrase, trust * _TURNAROUND)
        if closing is None:
            return None
        if earlier is not None:
            closing = replace(closing, runner_up=f"{earlier[1].kind} cadence, then a turnaround")
        return self._cadence(last, closing, phrase, trust)

    def _formula(self, place: int) -> Formula | None:
        top = self._top(self.chords[place])
        return formula(self.chords[max(place - 3, 0) : place], self.chords[place], top)

    def _arrives(self, place: int, phrase: Span) -> bool:
        start = self.chords[place].span.start
        return start >= (phrase.start + phrase.end) / 2 and (self.phrases_given or self._strong(start))

    def _strong(self, at: Fraction, downbeat: bool = False) -> bool:
        bar = self.time.bar_at(at)
        inside = at - (self.time.bar_start(bar) if bar else -self.time.meter(bar).bar)
        return inside == 0 or (not downbeat and 2 * inside == self.time.meter(bar).bar)

    def _home_before_tail(self, last: int, phrase: Span) -> tuple[int, Formula] | None:
        """An arrival home on a first beat near the end, with less than two bars after it."""
        bar = self._bar(phrase)
        for place in range(last - 1, max(last - 5, 0), -1):
            home = self.chords[place]
            at_home = _is_tonic(home) and self._strong(home.span.start, downbeat=True)
            if at_home and self._arrives(place, phrase) and phrase.end - home.span.end < 2 * bar:
                found = self._formula(place)
                if found is not None:
                    return place, found
        return None

    def _is_turnaround(self, home: int, last: int, phrase: Span) -> bool:
        """Whether what follows an arrival home only leads back: a chain to V (I vi ii V), or a mere tail.

        It fills the time up to a bar line and stops nowhere: a phrase that ends inside a bar has stopped, and
        so has one whose V is longer than the tonic was.
        """
        if not self._strong(phrase.end, downbeat=True):
            return False
        chain = last - home > 1 and is_dominant(self.chords[last].fullest, self.chords[home].key)
        resting = self.chords[home].span.length
        tail = phrase.end - self.chords[home].span.end
        return (chain and self.chords[last].span.length <= resting) or (
            tail < self._bar(phrase) and tail <= resting
        )

    def _bar(self, phrase: Span) -> Fraction:
        """The length of the phrase's last bar, in quarter notes."""
        return self.time.meter(self.time.bar_at(phrase.end - Fraction(1, 64))).bar

    def _top(self, arrival: Harmony) -> NoteName | None:
        """The melody's note over an arrival: what sounds there first, or what a suspension resolves to."""
        span = arrival.span
        sounding = [note for note in self.melody if note.onset < span.end and note.end > span.start]
        if not sounding:
            return None
        first = sounding[0]
        if first.pitch.name.pc in arrival.first.pcs or len(sounding) == 1:
            return first.pitch.name
        resolved = sounding[1].pitch
        return resolved.name if abs(resolved.height - first.pitch.height) == 1 else first.pitch.name

    def _cadence(self, place: int, found: Formula, phrase: Span, trust: float) -> Cadence:
        members = self.chords[place - found.length + 1 : place + 1]
        runner_up = found.runner_up
        following = self.chords[place + 1] if place + 1 < len(self.chords) else None
        if found.kind == "half" and following is not None and _is_tonic(following):
            runner_up = runner_up or "authentic cadence into the next phrase"
        return Cadence(
            kind=found.kind,
            at=members[-1].span.start,
            span=Span(members[0].span.start, min(members[-1].span.end, phrase.end)),
            key=members[-1].key,
            numerals=tuple(member.numeral for member in members),
            reason=found.reason,
            sureness=round(found.sureness * trust, 2),
            runner_up=runner_up,
            of=found.of,
        )


def _is_tonic(harmony: Harmony) -> bool:
    return above(harmony.first.root, harmony.key) == 0 and harmony.first.triad != "diminished"

"""Where harmonies close a phrase: the search behind ``cadences.py``, which tells the rule."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.functions import is_deceptive
from studio.theory.progression.cadence_formulas import Formula, acts_as_dominant, formula
from studio.theory.progression.closing_note import Tune
from studio.theory.progression.harmonies import Harmony, in_root_position

# How much the place adds to the chords: a section's end is an end; four bars are only a habit.
SECTION_END, GIVEN_PHRASE, FOUR_BARS = 1.0, 0.95, 0.8
_TURNAROUND, _CARRIED_OVER, _INSIDE = 0.85, 0.8, 0.75
_WITHOUT_DOMINANT = ("plagal", "minor plagal", "Phrygian", "Mixolydian", "subtonic", "minor dominant")


@dataclass(frozen=True, slots=True)
class Close:
    """The cadence that the harmony at ``place`` makes; ``trust`` is how far its place is one for a cadence."""

    place: int
    formula: Formula
    trust: float


@dataclass(frozen=True, slots=True)
class Closes:
    """The harmonies of a progression, and what tells which of them arrive."""

    chords: tuple[Harmony, ...]
    time: SongTime
    tune: Tune
    sections: tuple[Span, ...]
    phrases_given: bool

    def at_end_of(self, phrase: Span, usual: float) -> Close | None:
        """The close of one phrase; ``usual`` is how far its end is to be trusted if no section ends there."""
        last = bisect_left(self.chords, phrase.end, key=lambda harmony: harmony.span.start) - 1
        if last < 0 or self.chords[last].span.end <= phrase.start:
            return None
        trust = SECTION_END if self._ends_section(phrase.end) else usual
        closing = self._arrival(last, phrase)
        if closing is not None and closing.kind not in ("half", "Phrygian half"):
            return Close(last, closing, trust)
        earlier = self._home_before_tail(last, phrase)
        if earlier is not None and self._is_turnaround(earlier[0], last, phrase):
            return Close(*earlier, trust * _TURNAROUND)
        if closing is None:
            return None
        if earlier is not None:
            closing = replace(closing, runner_up=f"{earlier[1].kind} cadence, then a turnaround")
        return self._carried_over(last, phrase, usual) or Close(last, closing, trust)

    def inside(self, phrases: Sequence[Span]) -> Iterator[Close]:
        """The closes that are heard wherever they fall: V that is prepared and goes to vi, or comes home to stay."""
        for place in range(2, len(self.chords)):
            arrival = self.chords[place]
            start = arrival.span.start
            if (
                self._is_prepared(place)
                and self._strong(start, downbeat=True)
                and any(phrase.start < start < phrase.end for phrase in phrases)
            ):
                found = self._formula(place)
                stays = arrival.span.length >= 2 * self._bar(arrival.span)
                if found is not None and (
                    self._is_deceptive(place, found) or (found.kind.endswith("authentic") and stays)
                ):
                    yield Close(place, found, _INSIDE)

    def _arrival(self, place: int, phrase: Span) -> Formula | None:
        """What a harmony closes if it arrives late enough; inside a section, to come back from a neighbour is none."""
        found = self._formula(place) if self._arrives(place, phrase) else None
        neighbour = found is not None and found.kind in _WITHOUT_DOMINANT and self._is_neighbour(place)
        return None if neighbour and not self._ends_section(phrase.end) else found

    def _ends_section(self, at: Fraction) -> bool:
        return any(section.end == at for section in self.sections)

    def _formula(self, place: int) -> Formula | None:
        top = self.tune.closing_note(self.chords[place])
        return formula(self.chords[max(place - 3, 0) : place], self.chords[place], top)

    def _arrives(self, place: int, phrase: Span) -> bool:
        """Whether a harmony is late enough in its phrase, on a strong point; the last of a section may be long."""
        span = self.chords[place].span
        stays = self._ends_section(phrase.end) and span.end >= phrase.end and span.start > phrase.start
        late = stays or span.start >= (phrase.start + phrase.end) / 2
        return late and (self.phrases_given or self._strong(span.start))

    def _strong(self, at: Fraction, downbeat: bool = False) -> bool:
        bar = self.time.bar_at(at)
        inside = at - (self.time.bar_start(bar) if bar else -self.time.meter(bar).bar)
        return inside == 0 or (not downbeat and 2 * inside == self.time.meter(bar).bar)

    def _is_neighbour(self, place: int) -> bool:
        """Whether a tonic only comes back from the chord that it moved to, as in every blues: I–IV–I."""
        if place < 2 or not is_tonic(self.chords[place - 2]):
            return False
        full = all(self.chords[at].fullest.seventh for at in (place - 1, place))
        return full or not self.phrases_given

    def _carried_over(self, last: int, phrase: Span, usual: float) -> Close | None:
        """A V that the phrase stops on and that moves on at once: to vi, or home as ii7–V7–I does in jazz."""
        if last + 1 >= len(self.chords) or self._ends_section(phrase.end):
            return None
        arrival = self.chords[last + 1]
        found = self._formula(last + 1)
        if found is None or arrival.span.start != phrase.end:
            return None
        home = found.kind.endswith("authentic") and in_root_position(arrival.first) and self._is_jazz(last)
        waits = self.chords[last].fullest.seventh == "♭7" and self._is_prepared(last + 1)
        if not (home or (waits and self._is_deceptive(last + 1, found))):
            return None
        reason = f"{found.reason.removesuffix('.')}; it comes as the next phrase begins."
        carried = replace(found, reason=reason, runner_up="half cadence")
        return Close(last + 1, carried, usual * _CARRIED_OVER)

    def _is_jazz(self, dominant: int) -> bool:
        """Whether V7 follows a ii7 where most chords have sevenths or sixths."""
        full = [any(tone.number in (6, 7) for tone in harmony.fullest.tones) for harmony in self.chords]
        if dominant == 0 or not (full[dominant - 1] and full[dominant]):
            return False
        two = self.chords[dominant - 1]
        return two.key.above(two.first.root) == 2 and 2 * sum(full) > len(full)

    def _is_prepared(self, place: int) -> bool:
        """Whether the V before a harmony follows ii, IV or a six-four."""
        if place < 2:
            return False
        before, dominant = self.chords[place - 2].last, self.chords[place - 1]
        if not acts_as_dominant(dominant.fullest, dominant.key):
            return False
        above = dominant.key.above(before.root)
        return above in (2, 5) or (above == 0 and dominant.key.above(before.lowest) == 7)

    def _is_deceptive(self, place: int, found: Formula) -> bool:
        """Whether a deceptive cadence is one by what the chord's own reading says of it as well."""
        one, two = self.chords[place - 1].fullest, self.chords[place - 2].fullest
        arrival = self.chords[place]
        return found.kind == "deceptive" and is_deceptive(arrival.first, arrival.key, (one, two))

    def _home_before_tail(self, last: int, phrase: Span) -> tuple[int, Formula] | None:
        """An arrival home on a first beat near the end, with less than two bars after it."""
        bar = self._bar(phrase)
        for place in range(last - 1, max(last - 5, 0), -1):
            home = self.chords[place]
            at_home = is_tonic(home) and self._strong(home.span.start, downbeat=True)
            near = phrase.end - home.span.end < 2 * bar
            if at_home and near and not self._begins_again(place, last, phrase):
                found = self._arrival(place, phrase)
                if found is not None:
                    return place, found
        return None

    def _begins_again(self, home: int, last: int, phrase: Span) -> bool:
        """Whether an arrival home only begins again what the phrase began with, as I vi ii V twice in four bars."""
        first = bisect_left(self.chords, phrase.start, key=lambda harmony: harmony.span.start)
        length = last + 1 - home
        begun, again = (
            [(harmony.numeral, harmony.span.length) for harmony in self.chords[start : start + length]]
            for start in (first, home)
        )
        return first + length <= home and begun == again

    def _is_turnaround(self, home: int, last: int, phrase: Span) -> bool:
        """Whether what follows an arrival home only leads back: a chain to V (I vi ii V), or a mere tail.

        It fills the time up to a bar line and stops nowhere: a phrase that ends inside a bar has stopped, and
        so has one whose V is longer than the tonic was.
        """
        if not self._strong(phrase.end, downbeat=True):
            return False
        resting = self.chords[home].span.length
        tail = phrase.end - self.chords[home].span.end
        if tail < self._bar(phrase) and tail <= resting:
            return True
        opens = acts_as_dominant(self.chords[last].fullest, self.chords[home].key)
        leads = last - home > 1 if opens else self._leads_on(home, last, phrase)
        return leads and self.chords[last].span.length <= resting

    def _leads_on(self, home: int, last: int, phrase: Span) -> bool:
        """Whether a last chord is the tonic's own root, turned into the next V, or leads back to the chord that its
        section began with, by a falling fifth or a half step.
        """
        if self.chords[last].first.root.pc == self.chords[home].first.root.pc:
            return True
        section = next((one for one in self.sections if one.start <= phrase.start < one.end), phrase)
        begun = next(harmony for harmony in self.chords if harmony.span.end > section.start)
        return (begun.first.root.pc - self.chords[last].last.root.pc) % 12 in (1, 5, 11)

    def _bar(self, phrase: Span) -> Fraction:
        """The length of the phrase's last bar, in quarter notes."""
        return self.time.meter(self.time.bar_at(phrase.end - Fraction(1, 64))).bar


def is_tonic(harmony: Harmony) -> bool:
    """Whether a harmony stands on the tonic and could rest."""
    return harmony.key.above(harmony.first.root) == 0 and harmony.first.triad != "diminished"

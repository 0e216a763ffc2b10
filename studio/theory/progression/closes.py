"""Where harmonies close a phrase: the search behind ``cadences.py``, which tells the rule."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.functions import is_deceptive
from studio.theory.progression.applied_closes import is_at_home_on_five, on_five
from studio.theory.progression.cadence_formulas import formula, is_prepared
from studio.theory.progression.cadence_kinds import AMEN, OPEN, WITHOUT_DOMINANT, Formula
from studio.theory.progression.closing_note import Tune
from studio.theory.progression.harmonies import Harmony, acts_as_dominant, in_root_position, is_tonic
from studio.theory.progression.loop_motion import LoopMotion
from studio.theory.progression.strong_points import on_downbeat, on_strong_point

# How much the place adds to the chords: a section's end is an end; four bars are only a habit.
SECTION_END, GIVEN_PHRASE, FOUR_BARS = 1.0, 0.95, 0.8
_TURNAROUND, _CARRIED_OVER, _INSIDE = 0.85, 0.8, 0.75
_PERIOD = 8  # bars after which V that comes by its own V has closed, as at the end of a section


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
    loops: tuple[LoopMotion, ...] = ()

    def at_end_of(self, phrase: Span, usual: float) -> tuple[Close, ...]:
        """The close of one phrase, two if a tag follows; ``usual`` is how far its end is to be trusted if no section
        ends there.
        """
        last = bisect_left(self.chords, phrase.end, key=lambda harmony: harmony.span.start) - 1
        if last < 0 or self.chords[last].span.end <= phrase.start:
            return ()
        trust = SECTION_END if self._ends_section(phrase.end) else usual
        closing = self._arrival(last, phrase)
        if closing is not None and closing.kind == "half" and self._has_closed_on_five(last, phrase):
            closing = on_five(self.chords[last - 1], self.chords[last])
            closing = closing and replace(closing, runner_up="half cadence")
        if closing is not None and closing.kind not in OPEN:
            return self._with_tag(last, closing, phrase, trust)
        earlier = self._home_before_tail(last, phrase)
        stops = closing is not None and earlier is not None and earlier[1].kind in WITHOUT_DOMINANT
        if earlier is not None and not stops and self._is_turnaround(earlier[0], last, phrase):
            return (Close(*earlier, trust * _TURNAROUND),)
        if closing is None or self._in_vamp(phrase):
            return ()
        if earlier is not None:
            closing = replace(closing, runner_up=f"{earlier[1].kind} cadence, then a turnaround")
        return (self._carried_over(last, phrase, usual) or Close(last, closing, trust),)

    def _with_tag(self, last: int, closing: Formula, phrase: Span, trust: float) -> tuple[Close, ...]:
        """A close, after the authentic one that it only confirms if it is an amen."""
        earlier = self._home_before_tail(last, phrase) if closing.kind in AMEN else None
        if earlier is None or not earlier[1].kind.endswith("authentic"):
            return (Close(last, closing, trust),)
        reason = f"{closing.reason} It is a tag, after the phrase has closed."
        tag = replace(closing, reason=reason, runner_up="authentic cadence, then a plagal tag")
        return Close(*earlier, trust), Close(last, tag, trust)

    def _has_closed_on_five(self, last: int, phrase: Span) -> bool:
        """Whether V comes by its own V7 at the end of a section or of eight bars, or by its own six-four, and stays
        the triad that it is.
        """
        if last == 0 or on_five(self.chords[last - 1], self.chords[last]) is None:
            return False
        within = (one for one in self.chords[last].readings if one.at.start < phrase.end)
        if any(one.at.chord is not None and one.at.chord.seventh for one in within):
            return False
        if is_at_home_on_five(self.chords[max(last - 2, 0) : last]):
            return True
        start = next((one.start for one in self.sections if one.start < phrase.end <= one.end), phrase.start)
        eighth = (self.time.bar_at(phrase.end) - self.time.bar_at(start)) % _PERIOD == 0
        return self.chords[last - 1].fullest.seventh == "♭7" and (eighth or self._ends_section(phrase.end))

    def _in_vamp(self, phrase: Span) -> bool:
        """Whether two chords without a tonic go round, so that neither is a stop: ii–V, ii–V."""
        return any(loop.is_vamp and loop.span.contains(phrase.start) for loop in self.loops)

    def inside(self, phrases: Sequence[Span]) -> Iterator[Close]:
        """The closes that are heard wherever they fall: V that is prepared and goes to vi, or comes home to stay."""
        for place in range(2, len(self.chords)):
            arrival = self.chords[place]
            start = arrival.span.start
            if (
                self._is_prepared(place)
                and on_downbeat(start, self.time)
                and not any(loop.span.contains(start) for loop in self.loops)
                and any(phrase.start < start < phrase.end for phrase in phrases)
            ):
                found = self._formula(place)
                stays = arrival.span.length >= 2 * self._bar(arrival.span)
                if found is not None and (
                    (self._is_deceptive(place, found) and self._waits(place))
                    or (found.kind.endswith("authentic") and stays)
                ):
                    yield Close(place, found, _INSIDE)

    def _waits(self, place: int) -> bool:
        """Whether V before a harmony has a seventh or follows its six-four: plain IV–V–vi in a phrase is motion."""
        before, dominant = self.chords[place - 2].last, self.chords[place - 1]
        return dominant.fullest.seventh == "♭7" or dominant.key.above(before.root) == 0

    def _arrival(self, place: int, phrase: Span) -> Formula | None:
        """What a harmony closes if it arrives late enough; inside a section, to come back from a neighbour is none."""
        found = self._formula(place) if self._arrives(place, phrase) else None
        if found is not None and found.kind == "deceptive" and self._goes_round(place):
            return None
        neighbour = found is not None and found.kind in WITHOUT_DOMINANT and self._is_neighbour(place)
        return None if neighbour and not self._ends_section(phrase.end) else found

    def _goes_round(self, place: int) -> bool:
        """Whether V goes to vi in a loop, and nothing before V makes the ear wait for I."""
        inside = any(loop.span.contains(self.chords[place].span.start) for loop in self.loops)
        return inside and not self._is_prepared(place)

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
        return late and (self.phrases_given or on_strong_point(span.start, self.time))

    def _is_neighbour(self, place: int) -> bool:
        """Whether a tonic only comes back from the chord that it moved to, as in every blues: I–IV–I, or from one that
        stands over its own root, which is a pedal.
        """
        if place and self.chords[place - 1].last.lowest.pc == self.chords[place].first.root.pc:
            return True
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
        return is_prepared(self.chords[max(place - 3, 0) : place])

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
            at_home = is_tonic(home) and on_downbeat(home.span.start, self.time)
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
        if not on_downbeat(phrase.end, self.time):
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

"""Reading a chart: each chord as a Roman numeral in its key, with what it does there and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from studio.music.chart import Chart, ChordAt
from studio.music.chord import Chord
from studio.music.key import Key, key_at
from studio.music.place import Span
from studio.theory.harmony import reasons
from studio.theory.harmony.belonging import belongs
from studio.theory.harmony.candidate import CADENTIAL, Candidate
from studio.theory.harmony.chains import LINKED, goal_of, link_of
from studio.theory.harmony.coming_round import if_it_comes_round, start_again
from studio.theory.harmony.functions import function_of, is_deceptive
from studio.theory.harmony.path import Step, WrittenKeys, best_path
from studio.theory.harmony.reading import Function, NumeralDisplay, Reading, Style
from studio.theory.harmony.remarks import with_bass
from studio.theory.harmony.standing import same_harmony
from studio.theory.harmony.sureness import second_reading, sureness_of
from studio.theory.harmony.writing import Writing

Keys = Sequence[tuple[Fraction, Key]]
"""From which quarter note on each key holds, ascending."""


def read_chart(
    chart: Chart,
    keys: Keys,
    style: Style = "relative-to-major",
    figured: bool = True,
    sections: Sequence[Span] = (),
) -> tuple[Reading, ...]:
    """Read every chord of a chart in its key, all of them together (``path.best_path``).

    ``keys`` says from which quarter note on each key holds, ascending; the first also covers what is before.
    A chord is read in the key that holds where it starts. A suspended or power chord beside a chord on the
    same root is read as that chord, a polychord as its lower chord. ``figured`` says whether the numerals show
    inversions (V6/5) or not (V7). The last chord is heard as going on to the start of its section, one of
    ``sections``, or without them to the start of the chart (``coming_round``).

    One reading for each chord of the chart, in order; N.C. has one of kind "none". Raises ValueError when
    there are no keys.
    """
    if not keys:
        raise ValueError("A chart is read in a key, and none is given: infer the keys first.")
    writing = Writing(style, figured)
    once = _read(chart, keys, writing)
    more = start_again(chart, sections)
    if not more:
        return once
    longer, longer_keys = _followed_by(chart, keys, more)
    return if_it_comes_round(once, _read(longer, longer_keys, writing)[: len(once)])


def _followed_by(chart: Chart, keys: Keys, more: Sequence[ChordAt]) -> tuple[Chart, Keys]:
    """The chart with some of its chords again after its end, each in the key that it has where it stands."""
    end = chart.chords[-1].end
    move = end - more[0].start
    moved = tuple(replace(at, start=at.start + move) for at in more)
    in_keys = [
        (at.start, key_at(keys, first.start) or keys[0][1]) for at, first in zip(moved, more, strict=True)
    ]
    return Chart((*chart.chords, *moved)), [*(key for key in keys if key[0] < end), *in_keys]


def _read(chart: Chart, keys: Keys, writing: Writing) -> tuple[Reading, ...]:
    written = WrittenKeys(chart, keys)
    steps = best_path(chart, written).steps
    line = _Line([step for step in steps if step is not None], writing)
    readings: list[Reading] = []
    sounding = 0
    for place, (at, step) in enumerate(zip(chart.chords, steps, strict=True)):
        if step is None:
            key = written.keys_at(place)[0]
            readings.append(Reading(at, key, "", "", "none", reason="No chord sounds here."))
        else:
            readings.append(line.reading(sounding, at))
            sounding += 1
    return line.with_pivots(readings)


class _Line:
    """The sounding chords of a chart with their readings, and what is said of each among the others."""

    def __init__(self, steps: Sequence[Step], writing: Writing) -> None:
        self._steps = steps
        self._writing = writing

    def reading(self, count: int, at: ChordAt) -> Reading:
        step = self._steps[count]
        candidate, standing, key = step.candidate, step.standing, step.key
        numeral = self._writing.numeral(standing, candidate, key)
        goal = goal_of(self._steps[count:])
        link = link_of(candidate, goal)
        reason = reasons.reason_for(step, goal)
        if candidate.kind in ("diatonic", "borrowed") and is_deceptive(
            standing.chord, key, self._earlier(count)
        ):
            reason = reasons.deceptive(standing.written)
        return Reading(
            at=at,
            key=key,
            numeral=str(numeral),
            function=_function(step),
            kind=candidate.kind,
            of=numeral.of,
            resolved=goal.met,
            source=candidate.source,
            reason=reason if _says_its_bass(candidate, numeral) else with_bass(reason, standing.chord, key),
            sureness=sureness_of(step, goal.met or link != ""),
            runner_up=self._runner_up(step, str(numeral)),
            numeral_display=numeral,
            name=_name(candidate, numeral) or LINKED[link],
        )

    def _earlier(self, count: int) -> tuple[Chord, ...]:
        """The two different harmonies before, the nearer one first."""
        found: list[Chord] = []
        last = _sounding(self._steps[count])
        for step in reversed(self._steps[:count]):
            if not same_harmony(last, _sounding(step)):
                last = _sounding(step)
                found.append(last)
            if len(found) == 2:
                break
        return tuple(found)

    def _runner_up(self, step: Step, numeral: str) -> str:
        second = second_reading(step)
        written = "" if second is None else str(self._writing.second(step.standing, second, step.key))
        return "" if written == numeral else written

    def with_pivots(self, readings: list[Reading]) -> tuple[Reading, ...]:
        """Mark the chord that both keys share where one key gives way to the next.

        It is the last chord of the old key, if it belongs to both, and neither is that key's tonic nor presses home
        as the new key's dominant; or else the first chord of the new key, if it belongs to both.
        """
        sounding = [place for place, reading in enumerate(readings) if reading.kind != "none"]
        for count, (last, first) in enumerate(pairwise(sounding)):
            old, new = self._steps[count], self._steps[count + 1]
            if old.key == new.key:
                continue
            before = self._pivot(old, new.key)
            after = self._pivot(new, old.key)
            presses = function_of(old.standing.model, new.key, None, None) == "dominant"
            at_home = old.key.above(old.standing.model.root) == 0
            if before is not None and (after is None or not (presses or at_home)):
                readings[last] = replace(readings[last], pivot=before)
            elif after is not None:
                readings[first] = replace(readings[first], pivot=after)
        return tuple(readings)

    def _pivot(self, step: Step, other: Key) -> tuple[Key, str] | None:
        chord = step.standing.chord
        if not belongs(chord, step.key) or not belongs(chord, other):
            return None
        return other, str(self._writing.plain(step.standing, other))


def _name(candidate: Candidate, numeral: NumeralDisplay) -> str:
    """The trade's name, with what it is of: "cadential six-four of V"."""
    of = f" of {numeral.of}" if candidate.name == CADENTIAL and numeral.of else ""
    return f"{candidate.name}{of}"


def _sounding(step: Step) -> Chord:
    """The chord as it sounds: F/G as G9sus4."""
    return step.candidate.meant or step.standing.chord


def _says_its_bass(candidate: Candidate, numeral: NumeralDisplay) -> bool:
    """Whether figures, or the reason itself, tell what the bass is."""
    return bool(numeral.figures) or candidate.meant is not None or candidate.name.endswith("six-four")


def _function(step: Step) -> Function:
    """What the chord does: by its degree and neighbours, save where the kind of its reading says it."""
    candidate = step.candidate
    if candidate.kind in ("passing", "common-tone diminished"):
        return ""
    if candidate.kind in ("augmented sixth", "Neapolitan") or candidate.name == "related ii":
        return "subdominant"
    if candidate.applied is not None:
        return "subdominant" if candidate.applied.base == "ii" else "dominant"
    standing = step.standing
    model = standing.model if candidate.meant is None else candidate.meant
    return function_of(model, step.key, standing.before, standing.after)

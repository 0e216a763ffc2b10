"""The forms that are counted in bars, as the twelve-bar blues is, compared with what sounds in each bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from studio.music.key import Key
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading
from studio.theory.progression.harmonies import Harmony
from studio.theory.progression.heard_loop import by_role, is_applied, plain_name, step_in
from studio.theory.progression.known_loops import KNOWN_LOOPS, KnownLoop, Step, steps_of
from studio.theory.progression.plain_distance import OTHER, substitution

_FOUR_CHORDS, _LIKE = 4, 0.8  # forms in bars are weighed as if they were four chords long
_USUAL = 0.3  # a change that has a name of its own
_MOST_TOLD = 2
_QUICK_CHANGE, _TURNAROUND = "the quick change", "a turnaround"


@dataclass(frozen=True, slots=True)
class BarMatch:
    """A form in bars that is near, how near, and what is different: "the quick change", "iv in bar 6"."""

    form: KnownLoop
    cost: float
    differences: tuple[str, ...]


def bar_matches(readings: Sequence[Reading], span: Span, key: Key, time: SongTime | None) -> list[BarMatch]:
    """The forms of as many bars as a span has that its chords are near to; only chords may differ.

    Without a time there are no bars to count.
    """
    bars = len(time.barlines(span)) if time is not None else 0
    found = [_compared(form, readings, span, key) for form in KNOWN_LOOPS if form.bars and form.bars == bars]
    return [match for match in found if match is not None]


def _compared(form: KnownLoop, readings: Sequence[Reading], span: Span, key: Key) -> BarMatch | None:
    length = span.length / len(form.numerals)
    cost, named, told = 0.0, [], []
    for place, plain in enumerate(steps_of(form)):
        heard = _within(readings, Span(span.start + place * length, span.start + (place + 1) * length))
        bar = 1 + place * form.bars // len(form.numerals)
        if usual := _usual_change(form, plain, bar, heard, key):
            cost += _USUAL
            named.append(usual)
            continue
        more, chord = _nearest(plain, heard, key)
        cost += more
        if more:
            told.append(f"{plain_name(chord) if chord else 'no chord'} in bar {bar}")
    told = [] if form.loose else list(dict.fromkeys(told))
    weighed = cost * _FOUR_CHORDS / len(form.numerals)
    if weighed > _LIKE or len(told) > _MOST_TOLD:
        return None
    return BarMatch(form, weighed, (*dict.fromkeys(named), *told))


def _within(readings: Sequence[Reading], span: Span) -> tuple[Harmony, ...]:
    return by_role([reading for reading in readings if reading.at.span.overlaps(span)])


def _nearest(plain: Step, heard: Sequence[Harmony], key: Key) -> tuple[float, Harmony | None]:
    """What it costs to hear the chords of a bar for the form's one, and the chord that comes nearest to it.

    A dominant on the form's own root only leads on more strongly, and costs nothing.
    """
    costs = [
        (0.0 if is_applied(chord) and step.above == plain.above else substitution(plain, step)[0], chord)
        for chord in heard
        for step in (step_in(chord, key),)
    ]
    return min(costs, key=lambda cost: cost[0], default=(OTHER, None))


def _usual_change(form: KnownLoop, plain: Step, bar: int, heard: Sequence[Harmony], key: Key) -> str:
    """The name of a change that players make by habit, "" if it is none."""
    if not heard or plain.above != 0:
        return ""
    above = key.above(heard[0].fullest.root)
    if form.bars == 12 and bar == 2 and above == 5:
        return _QUICK_CHANGE
    ends_open = key.above(heard[-1].fullest.root) == 7 and heard[-1].fullest.triad == "major"
    return _TURNAROUND if bar == form.bars and ends_open else ""

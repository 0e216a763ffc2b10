"""Which known loops a loop is like, by the order of its chords, and how.

A loop is a form outright, from any of its chords; or it is one with a single change that a musician would say in a
breath; or it is one, once or twice round, and then goes on. Nothing else is claimed: two changes, or one in a loop of
three chords, leave no likeness that anybody would hear.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeVar

from studio.theory.progression.heard_loop import HeardLoop, by_role
from studio.theory.progression.known_loops import KNOWN_LOOPS, KnownLoop, Step, steps_of
from studio.theory.progression.plain_distance import Edit, distance

_T = TypeVar("_T")

_ROTATED, _RELATIVE, _REORDERED = 0.15, 0.2, 0.8
_TWICE_THEN, _ONCE_THEN, _VARIED = 0.5, 0.8, 0.3
PICARDY = "a Picardy third"  # a change that leaves a form its name
_LONG = 6  # chords of a form in which one may be missing
_FEW = 3  # a loop of so few different chords is itself, or it is another


@dataclass(frozen=True, slots=True)
class Likeness:
    """A known loop that a loop is like. ``turned`` is which of its chords the loop begins on; ``times`` how often
    it is heard; ``difference`` is one change, "iv in place of IV", "" for none; ``then`` are the numerals that
    follow; ``reordered`` says that only the chords are the same.
    """

    form: KnownLoop
    cost: float
    heard: HeardLoop
    turned: int = 0
    times: int = 1
    difference: str = ""
    then: tuple[str, ...] = ()
    reordered: bool = False


def likenesses(heard: HeardLoop) -> Iterator[Likeness]:
    """Every known loop that this one is like, in its own key or in the relative one, in no order."""
    relative = HeardLoop.of(heard.chords, heard.key.relative, at_home=False)
    for form in KNOWN_LOOPS:
        if form.bars:
            continue
        for turned in range(len(form.numerals)):
            for one in (heard, relative):
                yield from _whole(form, turned, one)
                yield from _then(form, turned, one)
        if len(set(form.numerals)) > _FEW and Counter(steps_of(form)) == Counter(heard.steps):
            yield Likeness(form, _REORDERED, heard, reordered=True)


def _whole(form: KnownLoop, turned: int, heard: HeardLoop) -> Iterator[Likeness]:
    """The form, once or twice round, as it is or with one change."""
    names, steps = _from(form.numerals, turned), _from(steps_of(form), turned)
    for times in (1, 2):
        if abs(times * len(steps) - len(heard.steps)) > 1:
            continue
        cost, edits = distance(steps * times, heard.steps, heard.leads)
        if not edits:
            yield Likeness(form, cost + _extra(turned, heard), heard, turned, times)
        elif len(edits) == 1 and heard.at_home and _is_told(edits[0], form, heard):
            difference = _said(edits[0], names, heard)
            yield Likeness(form, cost + _extra(turned, heard), heard, turned, times, difference)


def _then(form: KnownLoop, turned: int, heard: HeardLoop) -> Iterator[Likeness]:
    """The form as often as it comes, and a rest that is no longer than it by more than a last chord."""
    steps, length = _from(steps_of(form), turned), len(form.numerals)
    times, varied = _rounds(steps, heard)
    if times == 0 or len(set(steps)) < _FEW:
        return
    rest = _rest(heard, length, times)
    fewest = int(not varied) if times > 1 else length - 1
    if times == 1 and (len(set(steps)) <= _FEW or not heard.at_home or not _is_half(heard, length)):
        return
    if fewest <= len(rest) <= length + 1:
        cost = (_TWICE_THEN if times > 1 else _ONCE_THEN) + (_VARIED if varied else 0.0)
        plain, other = _from(form.numerals, turned)[-1], heard.names[times * length - 1]
        again = "the second time" if times == 2 else "the last time"
        difference = f"{other} in place of {plain} {again}" if varied else ""
        yield Likeness(form, cost + _extra(turned, heard), heard, turned, times, difference, rest)


def _rounds(steps: tuple[Step, ...], heard: HeardLoop) -> tuple[int, bool]:
    """How often a loop goes round, and whether its last time has another last chord, as it may from the second on."""
    times, length = 0, len(steps)
    while heard.steps[times * length : (times + 1) * length] == steps:
        times += 1
    last = heard.steps[times * length : (times + 1) * length]
    varied = times > 0 and len(set(steps)) > _FEW and len(last) == length
    varied = varied and last[:-1] == steps[:-1]
    return times + varied, varied


def _is_half(heard: HeardLoop, length: int) -> bool:
    """Whether so many chords fill the first half of the loop."""
    start, end = heard.chords[0].span.start, heard.chords[-1].span.end
    return len(heard.chords) > length and heard.chords[length].span.start == (start + end) / 2


def _rest(heard: HeardLoop, length: int, times: int) -> tuple[str, ...]:
    """The numerals after the last time round; a chord that ends it and begins the rest is in both."""
    chords = heard.chords
    rest = chords[times * length :]
    if times > 1:
        end = chords[0].span.start + times * (chords[length].span.start - chords[0].span.start)
        readings = [reading for chord in chords for reading in chord.readings]
        within = chords[times * length - 1].span
        if within.start < end and any(
            reading.at.start == end for reading in readings if within.contains(end)
        ):
            rest = by_role([reading for reading in readings if reading.at.start >= end])
    return HeardLoop.of(rest, heard.key, heard.at_home).names


def _extra(turned: int, heard: HeardLoop) -> float:
    return (_ROTATED if turned else 0.0) + (0.0 if heard.at_home else _RELATIVE)


def _from(loop: tuple[_T, ...], turned: int) -> tuple[_T, ...]:
    return (*loop[turned:], *loop[:turned])


def _is_told(edit: Edit, form: KnownLoop, heard: HeardLoop) -> bool:
    """Whether a musician would say a change at all: not on the chord that the loop begins on, nor in a loop that ends
    where it began, nor in one of three chords, where only the tritone substitute is.
    """
    if edit.kind == "tritone":
        return True
    if edit.heard == 0 or edit.form == 0 or len(set(form.numerals)) <= _FEW:
        return False
    if heard.steps[0] == heard.steps[-1]:
        return False
    if edit.kind in ("inserted", "other"):
        return heard.leads[edit.heard]
    return edit.kind != "omitted" or len(form.numerals) >= _LONG


def _said(edit: Edit, names: tuple[str, ...], heard: HeardLoop) -> str:
    """A difference in words: "iv in place of IV", "V/vi put in before vi", "V and vi exchanged"."""
    again = " the second time" if edit.form >= len(names) else ""
    plain = names[edit.form % len(names)]
    if edit.kind == "omitted":
        return f"{plain} left out{again}"
    if edit.kind == "exchanged":
        return f"{plain} and {names[(edit.form + 1) % len(names)]} exchanged{again}"
    name = heard.names[edit.heard]
    if edit.kind == "third" and (plain, name) == ("i", "I") and edit.heard + 1 == len(heard.names):
        return PICARDY
    if edit.kind == "inserted":
        last = edit.heard + 1 == len(heard.names)
        return f"{name} put in {'at the end' if last else f'before {heard.names[edit.heard + 1]}'}"
    why = ", its tritone substitute," if edit.kind == "tritone" else ""
    return f"{name}{why} in place of {plain}{again}"

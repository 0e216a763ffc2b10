"""The plain form that a loop is, or is nearest to, and what is different, said in one sentence.

A loop is compared with each known one (``known_loops.py``) from each of its chords, in its own key and in the
relative key, since i–♭VI–♭III–♭VII is vi–IV–I–V of the relative major (``likeness.py``), and with the forms that are
counted in bars (``bar_forms.py``). The nearest wins; to begin elsewhere or to be read in the relative key costs a
little, so that of equals the plainest is said. Where nothing is near, or the key changes, the numerals stand for
themselves.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from studio.music.key import Key
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading
from studio.theory.plain_english import listed, times_words
from studio.theory.progression.bar_forms import BarMatch, bar_matches
from studio.theory.progression.harmonies import Harmony
from studio.theory.progression.heard_loop import HeardLoop, by_role, plain_name, step_in
from studio.theory.progression.known_loops import KNOWN_LOOPS, KnownLoop
from studio.theory.progression.likeness import PICARDY, Likeness, likenesses
from studio.theory.progression.loop_motion import loop_motion
from studio.theory.progression.loops import smallest_loop

_FEWEST = 3  # chords that make a round of their own
_ONE_ROUND = 4  # chords that may be asked about as one round of a loop that goes on elsewhere
_CHANGED = 0.15
_PLAIN = 0.8  # that chords come again by their order, or not, is plain to hear; what to call them is not
_CLOSE = 0.08  # a second form that is less sure by no more than this is worth telling


@dataclass(frozen=True, slots=True)
class PlainForm:
    """What a loop is, or is nearest to.

    ``in_keys`` are its own numerals, those of each key together. ``form`` is None if nothing is near; ``key`` is the
    key in which the form is read. ``begun_on`` is the form's chord that the loop starts on, "" if it is the form's own
    first; it is heard ``times`` before the numerals ``then`` follow. ``differences`` are said as "iv in place of IV";
    ``reordered`` says that only the chords are the form's, not their order. ``repeats`` is false for chords that come
    once and are like no form. ``reason`` is a sentence.
    """

    span: Span
    in_keys: tuple[tuple[Key, tuple[str, ...]], ...]
    key: Key | None
    form: KnownLoop | None
    reason: str
    sureness: float
    begun_on: str = ""
    times: int = 1
    then: tuple[str, ...] = ()
    differences: tuple[str, ...] = ()
    reordered: bool = False
    repeats: bool = True
    runner_up: str = ""

    @property
    def numerals(self) -> tuple[str, ...]:
        """Its own numerals, without sevenths and figures: "V/vi", "♭VI"."""
        return tuple(numeral for _, numerals in self.in_keys for numeral in numerals)

    @property
    def is_relative(self) -> bool:
        """Whether the form is read in the relative key of the loop's own."""
        return self.key is not None and self.key != self.in_keys[0][0]


def plain_form(readings: Sequence[Reading], time: SongTime | None = None) -> PlainForm:
    """The plain form of the loop of a stretch of music, or the one that it is nearest to.

    ``time`` is needed for forms that are counted in bars, as the twelve-bar blues is. No chords, or nothing
    near, make a result without a form.
    """
    loop = smallest_loop(readings)
    if not loop.readings or all(reading.at.chord is None for reading in loop.readings):
        return PlainForm(Span(Fraction(0), Fraction(0)), (), None, None, "There are no chords.", 1.0)
    span = Span(readings[0].at.start, readings[0].at.start + loop.length)
    inside = [reading for reading in readings if reading.at.start < span.end]
    chords = by_role(inside)
    in_keys = tuple((key, _names(list(group))) for key, group in groupby(chords, key=lambda chord: chord.key))
    if len(in_keys) > 1:
        reason = f"It moves from {in_keys[0][0]} to {in_keys[1][0]}, and is no one loop."
        return PlainForm(span, in_keys, None, None, reason, 0.5)
    if len(chords) == 1:
        return PlainForm(span, in_keys, None, None, "One chord holds throughout.", 1.0)
    own = PlainForm(span, in_keys, None, None, "No loop with a name is near enough to say.", 0.5)
    found = [
        *(_by_order(own, one) for one in likenesses(HeardLoop.of(_round(chords, loop.times), chords[0].key))),
        *(_by_bars(own, one) for one in bar_matches(inside, span, chords[0].key, time)),
    ]
    if found:
        return _nearest(found)
    return _with_changes(inside, span, time) or _without_name(own, loop.times)


def _names(chords: Sequence[Harmony]) -> tuple[str, ...]:
    """The numerals of chords, none twice in a row."""
    return tuple(name for name, _ in groupby(map(plain_name, chords)))


def _with_changes(readings: Sequence[Reading], span: Span, time: SongTime | None) -> PlainForm | None:
    """A known loop of four bars that goes round with another bar here and there."""
    motion = loop_motion(readings, span, time) if time is not None else None
    if motion is None or not motion.turns or motion.span.end < span.end:
        return None
    once = plain_form([reading for reading in readings if reading.at.start < motion.turns[0].end], time)
    if once.form is None or once.form.bars or once.reordered or once.differences or once.then:
        return None
    times = once.times * len(motion.turns)
    words = f"the {once.form.name} {times_words(times)}"
    words += f", begun on {once.begun_on}" if once.begun_on else ""
    reason = f"It is {words}, with changes."
    sureness = round(once.sureness - _CHANGED, 2)
    return replace(once, span=span, times=times, differences=("changes",), reason=reason, sureness=sureness)


def _without_name(own: PlainForm, times: int) -> PlainForm:
    """What is like no form: it goes round by the order of its chords, or not at all."""
    ((key, names),) = own.in_keys
    for length in range(_FEWEST, len(names) // 2 + 1):
        unit = names[:length]
        turns, change = _rounds(unit, names)
        rest = names[turns * length :]
        if turns > 1 and len(rest) < length:
            reason = f"{'–'.join(unit)} comes {times_words(turns)}"
            reason += f", with {change}" if change else ""
            reason += f", then {'–'.join(rest)}" if rest else ""
            own = replace(own, in_keys=((key, unit),), times=turns, then=rest)
            return replace(own, differences=(change,) if change else (), reason=f"{reason}.", sureness=_PLAIN)
    if times > 1:
        return own
    reason = own.reason if len(names) <= _ONE_ROUND else "It does not repeat."
    return replace(own, repeats=False, reason=reason, sureness=_PLAIN)


def _rounds(unit: tuple[str, ...], names: tuple[str, ...]) -> tuple[int, str]:
    """How often a round of chords comes, and what its last time ends on if that is another chord."""
    turns, length = 1, len(unit)
    while names[turns * length : (turns + 1) * length] == unit:
        turns += 1
    last = names[turns * length : (turns + 1) * length]
    if len(last) < length or length < _ONE_ROUND or last[:-1] != unit[:-1]:
        return turns, ""
    return turns + 1, f"{last[-1]} in place of {unit[-1]} {'the second' if turns == 1 else 'the last'} time"


def _nearest(found: Sequence[PlainForm]) -> PlainForm:
    """The surest, the better known of equals, with the runner-up."""
    best, *others = sorted(found, key=lambda one: (-one.sureness, KNOWN_LOOPS.index(_form(one))))
    for one in others:
        close = best.sureness - one.sureness < _CLOSE
        if close and _form(one).text != _form(best).text and not (one.then or best.then):
            return replace(best, runner_up=_form(one).text)
    return best


def _form(found: PlainForm) -> KnownLoop:
    assert found.form is not None
    return found.form


def _by_order(own: PlainForm, one: Likeness) -> PlainForm:
    form, key = one.form, one.heard.key
    begun_on = form.numerals[one.turned] if one.turned else ""
    changed = one.difference not in ("", PICARDY)
    words = form.text if changed or form.name == form.text else f"the {form.name}"
    words += f" of {key}" if not one.heard.at_home else ""
    words += f" {times_words(one.times)}" if one.times > 1 else ""
    words += f", begun on {begun_on}" if begun_on else ""
    words += f", with {one.difference}" if one.difference else ""
    words += f", then {'–'.join(one.then)}" if one.then else ""
    return replace(
        own,
        key=key,
        form=form,
        reason=f"The chords of {form.text}, in another order." if one.reordered else f"It is {words}.",
        sureness=_sureness(one.cost),
        begun_on=begun_on,
        times=one.times,
        then=one.then,
        differences=(one.difference,) if one.difference else (),
        reordered=one.reordered,
    )


def _by_bars(own: PlainForm, match: BarMatch) -> PlainForm:
    changes = f", with {listed(match.differences)}" if match.differences else ""
    return replace(
        own,
        key=own.in_keys[0][0],
        form=match.form,
        reason=f"Its bars are those of the {match.form.name}{changes}.",
        sureness=_sureness(match.cost),
        differences=match.differences,
    )


def _sureness(cost: float) -> float:
    return round(0.95 - 0.25 * cost, 2)


def _round(chords: tuple[Harmony, ...], times: int) -> tuple[Harmony, ...]:
    """One time round, without a last chord that the next time begins with."""
    key = chords[0].key
    if times > 1 and len(chords) > 2 and step_in(chords[0], key) == step_in(chords[-1], key):
        return chords[:-1]
    return chords

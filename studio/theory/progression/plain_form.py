"""The plain form that a loop is nearest to, and what is different, said in one sentence.

A loop is compared with each known one (``known_loops.py``) from each of its chords, in its own key and in the
relative key, since i–♭VI–♭III–♭VII is vi–IV–I–V of the relative major. The cheapest edit (``plain_distance.py``)
wins; to begin elsewhere or to be read in the relative key costs a little, so that of equals the plainest is said.
What is further away than about one change in three chords is no relation, and is not claimed to be.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.music.key import Key
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.harmony.reading import Reading
from studio.theory.progression.harmonies import Harmony, above, harmonies, plain_numeral
from studio.theory.progression.known_loops import KNOWN_LOOPS, KnownLoop, Step, steps_of
from studio.theory.progression.loops import smallest_loop
from studio.theory.progression.plain_distance import OTHER, THIRD, Edit, distance, substitution

_ROTATED, _RELATIVE, _REORDERED = 0.15, 0.2, 0.8
_PER_CHORD = 0.35  # how much change for each chord still leaves a likeness
_MOST, _MOST_EDITS = 1.6, 2  # and no more than this in all, or nobody would hear it
_FOUR_CHORDS, _LIKE_BARS = 4, 0.8  # forms in bars are weighed as if they were four chords long
_CLOSE = 0.3  # a second form this near is worth telling
_FEW = 2  # loops of two chords differ by no more than a third
_TIMES = ("", "", " twice")


@dataclass(frozen=True, slots=True)
class PlainForm:
    """What a loop is nearest to. ``form`` is None if nothing is near; ``key`` is the key in which the form is
    read; ``begun_on`` is the form's chord that the loop starts on, "" if it is the form's own first;
    ``differences`` are said as "iv in place of IV". ``reason`` is the one sentence.
    """

    span: Span
    numerals: tuple[str, ...]
    key: Key | None
    form: KnownLoop | None
    begun_on: str
    differences: tuple[str, ...]
    reason: str
    sureness: float
    runner_up: str = ""


@dataclass(frozen=True, slots=True)
class _Match:
    cost: float
    order: int
    form: KnownLoop
    key: Key
    turned: int
    differences: tuple[str, ...]
    times: int = 1


@dataclass(frozen=True, slots=True)
class _Heard:
    """The chords of one time round, as steps of a key; ``leads`` tells which are applied and resolved."""

    chords: Sequence[Harmony]
    steps: Sequence[Step]
    leads: Sequence[bool]
    key: Key
    at_home: bool

    def name(self, place: int) -> str:
        """The plain numeral of a chord, or what it is applied to: "iv", "V/vi"."""
        return _name(self.chords[place], self.key, self.at_home)


def _name(chord: Harmony, key: Key, at_home: bool = True) -> str:
    reading = chord.readings[-1]
    if at_home and reading.kind == "applied" and reading.of:
        base = reading.numeral_display.base
        return f"{base}{'°' if base == 'vii' else ''}/{reading.of}"
    return plain_numeral(chord.fullest, key)


def plain_form(readings: Sequence[Reading], time: SongTime | None = None) -> PlainForm:
    """The plain form nearest to the loop of a stretch of music.

    ``time`` is needed for forms that are counted in bars, as the twelve-bar blues is. No chords, or nothing
    near, make a result without a form.
    """
    loop = smallest_loop(readings)
    chords = _round(harmonies(loop.readings), loop.times)
    if not chords:
        return PlainForm(Span(Fraction(0), Fraction(0)), (), None, None, "", (), "There are no chords.", 1.0)
    key = Counter(chord.key for chord in chords).most_common(1)[0][0]
    span = Span(readings[0].at.start, readings[0].at.start + loop.length)
    matches = sorted(
        [*_by_order(chords, key), *_by_bars(readings, span, key, time)],
        key=lambda match: (match.cost, match.order),
    )
    numerals = tuple(_name(chord, key) for chord in chords)
    if not matches:
        return PlainForm(span, numerals, None, None, "", (), "It is like no well-known loop.", 0.5)
    best = matches[0]
    other = next((match for match in matches if match.form.text != best.form.text), None)
    begun_on = best.form.numerals[best.turned] if best.turned else ""
    return PlainForm(
        span=span,
        numerals=numerals,
        key=best.key,
        form=best.form,
        begun_on=begun_on,
        differences=best.differences,
        reason=_sentence(best, begun_on, key),
        sureness=round(max(0.95 - 0.25 * best.cost, 0.3), 2),
        runner_up=other.form.text if other is not None and other.cost < best.cost + _CLOSE else "",
    )


def _round(chords: tuple[Harmony, ...], times: int) -> tuple[Harmony, ...]:
    """One time round, without a last chord that the next time begins with."""
    if times > 1 and len(chords) > 2 and _step(chords[0], chords[0].key) == _step(chords[-1], chords[0].key):
        return chords[:-1]
    return chords


def _step(chord: Harmony, key: Key) -> Step:
    return Step(above(chord.fullest.root, key), chord.fullest.triad)


def _by_order(chords: Sequence[Harmony], home: Key) -> Iterator[_Match]:
    """The known loops that are near in the order of their chords."""
    leads = [chord.readings[-1].kind == "applied" and chord.readings[-1].resolved for chord in chords]
    for key, extra in ((home, 0.0), (home.relative, _RELATIVE)):
        heard = [_step(chord, key) for chord in chords]
        for order, form in enumerate(KNOWN_LOOPS):
            times = 2 if len(form.numerals) > _FEW and 2 * len(form.numerals) <= len(heard) + 1 else 1
            if form.bars or abs(times * len(form.numerals) - len(heard)) > len(form.numerals) // 2:
                continue
            match = _nearest_turn(form, order, times, _Heard(chords, heard, leads, key, key == home), extra)
            if match is not None:
                yield match


def _nearest_turn(form: KnownLoop, order: int, times: int, heard: _Heard, extra: float) -> _Match | None:
    """The form, once or twice round, from whichever of its chords fits best; None if none is near."""
    plain = steps_of(form)
    limit = min(_PER_CHORD * len(plain), _MOST) if len(plain) > _FEW else THIRD
    found = []
    for turn in range(len(plain)):
        cost, edits = distance((*plain[turn:], *plain[:turn]) * times, heard.steps, heard.leads)
        names = (*form.numerals[turn:], *form.numerals[:turn])
        if cost <= limit and len(edits) <= _MOST_EDITS:
            said = tuple(_said(edit, names, heard) for edit in edits)
            found.append(
                _Match(cost + extra + (_ROTATED if turn else 0), order, form, heard.key, turn, said, times)
            )
    if not found and times == 1 and len(plain) > 3 and Counter(plain) == Counter(heard.steps):
        return _Match(_REORDERED + extra, order, form, heard.key, 0, ("its chords in another order",))
    return min(found, key=lambda match: match.cost, default=None)


def _said(edit: Edit, names: Sequence[str], heard: _Heard) -> str:
    """A difference in words: "iv in place of IV", "V/vi put in before vi", "without IV"."""
    again = " the second time" if edit.form >= len(names) else ""
    plain = names[edit.form % len(names)]
    if edit.kind == "omitted":
        return f"without {plain}{again}"
    if edit.kind == "exchanged":
        return f"{plain} and {names[(edit.form + 1) % len(names)]} exchanged{again}"
    name = heard.name(edit.heard)
    if edit.kind == "inserted":
        last = edit.heard + 1 == len(heard.chords)
        return f"{name} put in {'at the end' if last else f'before {heard.name(edit.heard + 1)}'}"
    why = ", its tritone substitute," if edit.kind == "tritone" else ""
    return f"{name}{why} in place of {plain}{again}"


def _by_bars(readings: Sequence[Reading], span: Span, key: Key, time: SongTime | None) -> Iterator[_Match]:
    """The forms counted in bars, compared beat for beat; only chords may differ, not the length."""
    if time is None:
        return
    bars = len(time.barlines(span))
    for order, form in enumerate(KNOWN_LOOPS):
        if not form.bars or form.bars != bars:
            continue
        length = span.length / len(form.numerals)
        heard = [_sounding(readings, span.start + place * length) for place in range(len(form.numerals))]
        cost, said = 0.0, []
        for place, (plain, chord) in enumerate(zip(steps_of(form), heard, strict=True)):
            more, kind = (OTHER, "other") if chord is None else substitution(plain, _step(chord, key))
            cost += more
            if kind is not None and chord is not None:
                bar = 1 + place * form.bars // len(form.numerals)
                said.append(f"{plain_numeral(chord.fullest, key)} in bar {bar}")
        weighed = cost * _FOUR_CHORDS / len(form.numerals)
        if weighed <= _LIKE_BARS:
            yield _Match(weighed, order, form, key, 0, tuple(dict.fromkeys(said)))


def _sounding(readings: Sequence[Reading], at: Fraction) -> Harmony | None:
    reading = next((found for found in readings if found.at.span.contains(at)), None)
    return None if reading is None or reading.at.chord is None else Harmony((reading,))


def _sentence(match: _Match, begun_on: str, home: Key) -> str:
    """ "I–V–vi–IV begun on vi, with iv in place of IV." """
    form = match.form
    words = (f"The {form.name}" if form.bars else form.text) + _TIMES[match.times]
    if match.key != home:
        words += f" of {match.key}"
    if begun_on:
        words += f" begun on {begun_on}"
    if match.differences:
        without = match.differences[0].startswith("without")
        words += f", {'' if without else 'with '}{' and '.join(match.differences)}"
    elif not form.bars and form.text not in form.name:
        words += f", the {form.name}"
    return f"{words}."

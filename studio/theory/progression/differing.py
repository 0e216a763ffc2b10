"""Which chords of a loop are those that its plain form does not have: where a picture marks what the words say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from studio.music.key import Key
from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.progression.harmonies import Harmony
from studio.theory.progression.heard_loop import HeardLoop, by_role, is_applied, step_in
from studio.theory.progression.known_loops import KnownLoop, Step, steps_of
from studio.theory.progression.plain_distance import Edit, distance, substitution
from studio.theory.progression.plain_form import PlainForm


def differing(found: PlainForm, readings: Sequence[Reading]) -> tuple[Span, ...]:
    """The spans of the chords in which a loop differs from its plain form; none if the form has no one difference
    that can be pointed at, as a chord that is left out cannot.

    ``readings`` are those that ``plain_form`` was asked about.
    """
    if found.form is None or found.key is None or found.reordered or not found.differences:
        return ()
    chords = by_role([reading for reading in readings if reading.at.start < found.span.end])
    if found.form.bars:
        return tuple(_in_bars(found.form, found.span, chords, found.key))
    edits = _edits(found, found.form, HeardLoop.of(chords, found.key, not found.is_relative))
    return tuple(chords[place].span for place in _places(edits)) if len(edits) == 1 else ()


def _edits(found: PlainForm, form: KnownLoop, heard: HeardLoop) -> tuple[Edit, ...]:
    """The changes from the form, as often as it comes round, to what is heard of it."""
    begun_on = found.begun_on or form.numerals[0]
    turns = [place for place, numeral in enumerate(form.numerals) if numeral == begun_on]
    ends = [found.times * len(form.numerals)] if found.then else [len(heard.steps), len(heard.steps) - 1]
    ways = (
        distance(_from(steps_of(form), turn) * found.times, heard.steps[:end], heard.leads[:end])
        for turn in (turns if found.begun_on else turns[:1])
        for end in ends
    )
    return min(ways, key=lambda way: way[0])[1]


def _places(edits: Sequence[Edit]) -> Iterator[int]:
    for edit in edits:
        if edit.kind == "exchanged":
            yield from (edit.heard, edit.heard + 1)
        elif edit.heard >= 0:
            yield edit.heard


def _in_bars(form: KnownLoop, span: Span, chords: Sequence[Harmony], key: Key) -> Iterator[Span]:
    """What sounds in each bar that has none of the form's chord, and what the last bar turns round on."""
    length = span.length / len(form.numerals)
    for place, plain in enumerate(steps_of(form)):
        bar = Span(span.start + place * length, span.start + (place + 1) * length)
        sounding = [chord for chord in chords if chord.span.overlaps(bar)]
        others = [chord for chord in sounding if not _stands_for(chord, plain, key)]
        if others and (len(others) == len(sounding) or place + 1 == len(form.numerals)):
            yield from (shared for chord in others if (shared := bar.intersection(chord.span)))


def _stands_for(chord: Harmony, plain: Step, key: Key) -> bool:
    """Whether a chord is the form's own; a dominant on its root only leads on more strongly."""
    step = step_in(chord, key)
    return step.above == plain.above if is_applied(chord) else substitution(plain, step)[0] == 0


def _from(loop: tuple[Step, ...], turned: int) -> tuple[Step, ...]:
    return (*loop[turned:], *loop[:turned])

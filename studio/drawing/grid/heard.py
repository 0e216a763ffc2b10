"""What a groove callout is about: a groove as theory reads it, over which bars it is played, and its lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate

from studio.drawing.grid.grid import Pass, Pattern
from studio.drawing.grid.kit_lines import voice_lines
from studio.drawing.lettering.runs import without_font
from studio.music.groove import Groove
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.theory.plain_english import capital
from studio.theory.rhythm.difference import strokes_between
from studio.theory.rhythm.reading import GrooveReading
from studio.theory.rhythm.typical import repeating_unit
from studio.theory.wording import groove_words
from studio.theory.wording.counting import SYLLABLES
from studio.timeline.ask import Ask

_DIVISIONS = (1, 2, 3, 4, 6, 8, 12, 24)  # parts of a beat in which strokes may fall


@dataclass(frozen=True)
class Heard:
    """One groove as it is shown: under which name, what of it, what theory reads in it, and where it is played."""

    name: str
    groove: Groove
    reading: GrooveReading
    span: Span | None
    played: bool


def heard_in(name: str, against: str | Span | None, ask: Ask) -> tuple[Heard, ...]:
    """The groove, and what it is compared with."""
    if against == name or (isinstance(against, Span) and against == ask.span):
        others = [each for each in ask.facts.song.grooves if each != name]
        remedy = f"such as {others[0]}" if others else "or leave 'against' out"
        ask.refuse("against", f"this is '{name}' against itself; name another groove or place, {remedy}")
    if isinstance(against, str):
        return _one(name, ask.span, "groove", ask), _one(against, ask.span, "against", ask, silent=True)
    if against is None:
        return (_one(name, ask.span, "groove", ask),)
    if isinstance(ask.facts.song.grooves[name], Groove):
        ask.refuse(
            "against",
            f"'{name}' is one pattern, the same at every place; name another groove instead",
        )
    span = ask.the_span()
    one = replace(_one(name, span, "groove", ask), name=ask.facts.words(span))
    return one, replace(_one(name, against, "against", ask), name=ask.facts.words(against))


def _one(name: str, span: Span | None, option: str, ask: Ask, silent: bool = False) -> Heard:
    """A groove over a span; `silent` if the pointer has no business in it, for the other one sounds."""
    source, reading = ask.facts.song.grooves[name], ask.facts.groove(name, span)
    played = not isinstance(source, Groove)
    groove = reading.groove if not isinstance(source, Groove) else repeating_unit(source).groove
    if not groove.lines:
        where = f" in {ask.facts.words(span)}" if span is not None else ""
        ask.refuse(option, f"nothing of '{name}' is played{where}; choose bars in which the drums play")
    if strange := without_font(name, ask.theme.weights.strong):
        ask.refuse(option, strange)
    return Heard(name, groove, reading, None if silent else span, played)


def pattern_of(heard: Heard, lines: tuple[str, ...], bars: int, before: Heard | None) -> Pattern:
    """A groove as it is drawn, beside the one `before` it with what is otherwise marked."""
    groove, reading = heard.groove, heard.reading
    beats, compound = groove.meter.beats, groove.meter.compound
    parts = {hit.at * beats % 1 for hit in groove.hits()}
    steps = next((n for n in _DIVISIONS if all((part * n).denominator == 1 for part in parts)), 1)
    if compound and steps % 3:
        steps *= 3
    told = not compound and steps in (2, 4)
    return Pattern(
        name=capital(heard.name),
        said=_shorter(groove_words(reading)),
        lines=voice_lines(groove, lines, bars, strokes_between(before.reading, reading) if before else None),
        beats=beats,
        steps=steps,
        backbeats=reading.feel.beats if reading.feel.backbeat else (),
        groups=tuple(accumulate((1, *reading.feel.grouping[:-1]))) if reading.feel.grouping else (),
        syllables=tuple(item for item in SYLLABLES.items() if item[0].denominator in (2, 4)) if told else (),
    )


def _shorter(words: str) -> tuple[str, ...]:
    """Words, and fewer and fewer of them, from the end on."""
    parts = words.split(", ")
    return tuple(", ".join(parts[:count]) for count in range(len(parts), 0, -1))


def passes_of(heard: Heard, number: int, bars: int, time: SongTime) -> Iterator[Pass]:
    """The bars of the song in which a groove is played, with the bar of the pattern that each of them is."""
    if heard.span is None:
        return
    span = heard.span
    lines = [line for line, _ in time.barlines(span)]
    first = time.bar_at(span.start)
    if not heard.played and first > 0 and first not in lines:
        lines = [first, *lines]  # a pattern is heard from within a bar on as well
    own = [line for line in lines if line > 0 and time.meter(line) == heard.groove.meter]
    if heard.played:
        own = [line for line in own if time.bar_start(line + 1) <= span.end]
    for place, line in enumerate(own):
        yield Pass(time.bar_start(line), heard.groove.meter.bar, number, place % bars)

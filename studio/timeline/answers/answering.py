"""Answering the facts of a project: which function of theory each kind of question goes to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.model import FactAsked
from studio.timeline.answers import form, harmony, melody, parts, progression, rhythm
from studio.timeline.answers.belief import judge
from studio.timeline.answers.said import Answer, Said
from studio.timeline.song_facts import SongFacts

ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {
    **harmony.ANSWERS,
    **progression.ANSWERS,
    **melody.ANSWERS,
    **parts.ANSWERS,
    **rhythm.ANSWERS,
    **form.ANSWERS,
}


# Kinds whose answer is one name or one chain of names, of which a part is not the answer.
_NAMES = frozenset(
    {"numerals", "chord", "numeral", "degree", "scale degree", "mode", "key", "sounding", "range"}
)


def answer(fact: FactAsked, facts: SongFacts) -> Answer:
    """The words that stand for a fact of the project, where it holds and why."""
    said = ANSWERS[fact.kind](fact, facts)
    return Answer(
        name=fact.name,
        kind=fact.kind,
        words=said.words,
        where=where(said.span or fact.span, fact.at, facts.song.time),
        reason=said.reason,
        sureness=round(said.sureness, 2),
        runner_up=said.runner_up,
        expect=fact.expect,
        verdict=judge(fact.expect, said, phrase=fact.kind not in _NAMES),
    )


def where(span: Span | None, at: Fraction | None, time: SongTime) -> str:
    """The place of a fact as people say it."""
    if at is not None:
        return time.moment(at)
    return time.words(span) if span is not None else "the whole song"

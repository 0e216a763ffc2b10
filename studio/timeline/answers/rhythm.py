"""Answers about grooves."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from studio.project.model import FactAsked
from studio.theory.plain_english import sentence
from studio.theory.rhythm.difference import groove_difference
from studio.theory.wording import difference_words, groove_words, syncopation_words
from studio.timeline.answers.said import Said
from studio.timeline.song_facts import SongFacts


def _groove(fact: FactAsked, facts: SongFacts) -> Said:
    if fact.against is not None:
        return _difference(fact, facts)
    found = facts.groove(fact.groove, fact.span)
    names = tuple(name.name for name in found.names)
    reason = f"{found.reason} {sentence(syncopation_words(found))}"
    return Said(groove_words(found), reason, found.sureness, found.runner_up, also=names)


def _difference(fact: FactAsked, facts: SongFacts) -> Said:
    assert fact.against is not None
    one = facts.groove(fact.groove, fact.span)
    if isinstance(fact.against, str):
        other, name = facts.groove(fact.against, fact.span), fact.against
    else:
        other, name = facts.groove(fact.groove, fact.against), facts.words(fact.against)
    first = facts.words(fact.span) if fact.span is not None else fact.groove
    found = groove_difference(one, other)
    reason = f"{first}: {groove_words(one)}. {name}: {groove_words(other)}."
    return Said(difference_words(found, name, first), reason, found.sureness)


ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {"groove": _groove}

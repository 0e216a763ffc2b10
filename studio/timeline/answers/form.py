"""Answers about the form of the song."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from studio.music.place import Span
from studio.project.model import FactAsked
from studio.theory.form.bars import bars_reading
from studio.theory.form.key_plan import KeyPlan, key_plan
from studio.theory.form.phrases import grouping_text
from studio.theory.form.plan import form_of
from studio.theory.wording import bars_words, form_words, key_plan_words
from studio.timeline.answers.said import Said
from studio.timeline.song_facts import SongFacts


def _form(fact: FactAsked, facts: SongFacts) -> Said:
    span = facts.span(fact)
    sections = [section for section in facts.sections if section[1].overlaps(span)]
    found = form_of(sections, facts.readings(span), facts.song.time)
    also = (found.name, found.letters, " ".join(found.letters))
    return Said(form_words(found), found.reason, found.sureness, found.runner_up, also=also)


def _bars(fact: FactAsked, facts: SongFacts) -> Said:
    span = facts.span(fact)
    found = bars_reading(span, facts.song.time, facts.readings(span), facts.tune(facts.whole))
    groups = grouping_text([phrase.bars for phrase in found.phrases])
    also = (str(found.bars), f"{found.bars} bars", groups)
    reason = found.reason if found.pickup is None else f"{found.reason} {found.pickup.reason}"
    return Said(bars_words(found), reason, found.sureness, found.runner_up, also=also)


def plan_of_keys(facts: SongFacts, span: Span) -> KeyPlan:
    """The plan of keys over a stretch, as sure as the least sure of the keys that were not written."""
    found = facts.keys_in(span)
    keys = [(within.start, key) for within, key, _ in found]
    sureness = min((heard.sureness for *_, heard in found if heard is not None), default=1.0)
    sections = [section for section in facts.sections if section[1].overlaps(span)]
    return key_plan(keys, sections, facts.song.time, span.end, sureness)


def _key_plan(fact: FactAsked, facts: SongFacts) -> Said:
    found = plan_of_keys(facts, facts.span(fact))
    reason = " ".join(dict.fromkeys(stage.reason for stage in found.stages if stage.reason))
    return Said(key_plan_words(found), reason, found.sureness)


ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {
    "form": _form,
    "bars": _bars,
    "key plan": _key_plan,
}

"""Which facts a segment leans on: those that its script or its callouts have the answer of."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from studio.project.complaints import MisfitError
from studio.project.fact_text import fact_names
from studio.project.model import FactAsked, Project, Segment
from studio.timeline.answers.said import Answer
from studio.timeline.plan import Plan


def facts_used(segment: Segment) -> tuple[str, ...]:
    """Names of facts, in the order in which the segment first uses them."""
    return tuple(dict.fromkeys(name for text in _texts(segment) for name in _names(text)))


def answers_used(project: Project, plan: Plan, segment: Segment) -> tuple[tuple[str, Answer], ...]:
    """(question in words, answer) for each fact that the segment uses."""
    asked = {fact.name: fact for fact in project.facts}
    answers = {answer.name: answer for answer in plan.answers}
    used = [name for name in facts_used(segment) if name in answers]
    return tuple((question(asked.get(name), answers[name]), answers[name]) for name in used)


def question(asked: FactAsked | None, answer: Answer) -> str:
    """What is asked: `numerals, bars 13–16`. A question asked on the spot is its own words."""
    if asked is None or ":" in answer.name:
        return answer.name
    about = [", ".join(asked.parts) or asked.groove, answer.where]
    return ", ".join(part for part in (answer.kind, *about) if part)


def _texts(segment: Segment) -> Iterator[str]:
    yield segment.script
    for options in segment.callouts:
        for name in type(options).model_fields:
            if isinstance(value := getattr(options, name), str):
                yield value


def _names(text: str) -> Iterator[str]:
    with suppress(MisfitError):  # an option that is no text for the screen may hold a lone brace
        for name, _ in fact_names(text):
            yield name

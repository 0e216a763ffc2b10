"""Answers about chords and keys."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import groupby

from studio.project.model import FactAsked
from studio.theory.harmony.reading import Reading
from studio.theory.wording import progression_words, reading_note
from studio.timeline.answers.said import Said
from studio.timeline.song_facts import SongFacts

_CLEAR = 0.9  # a key as sure as this has no second that is worth telling


def _numerals(fact: FactAsked, facts: SongFacts) -> Said:
    readings = facts.readings(facts.span(fact))
    reasons = " ".join(dict.fromkeys(reading.reason for reading in readings if reading.reason))
    sureness = min((reading.sureness for reading in readings), default=1.0)
    also = tuple(progression_words(others) for others in facts.written_otherwise(facts.span(fact)))
    return Said(progression_words(readings), reasons, sureness, _with_runners_up(readings), also)


def _with_runners_up(readings: tuple[Reading, ...]) -> str:
    """The same progression with the second reading wherever there is one."""
    if not any(reading.runner_up for reading in readings):
        return ""
    others = [replace(reading, numeral=reading.runner_up or reading.numeral) for reading in readings]
    return progression_words(others)


def _reading(fact: FactAsked, facts: SongFacts) -> Reading:
    assert fact.at is not None
    reading = facts.reading_at(fact.at)
    assert reading is not None, "the project room has seen a chord there"
    return reading


def _chord(fact: FactAsked, facts: SongFacts) -> Said:
    reading = _reading(fact, facts)
    assert reading.at.chord is not None
    reason = f"{reading.at.chord.text} is written there; it is {reading.numeral} in {reading.key}."
    return Said(reading.at.chord.text, reason)


def _numeral(fact: FactAsked, facts: SongFacts) -> Said:
    reading = _reading(fact, facts)
    also = tuple(others[0].numeral for others in facts.written_otherwise(reading.at.span))
    return Said(reading.numeral, reading.reason, reading.sureness, reading.runner_up, also)


def _function(fact: FactAsked, facts: SongFacts) -> Said:
    reading = _reading(fact, facts)
    words = reading.function or reading_note(reading) or "no function of its own"
    return Said(words, reading.reason, reading.sureness)


def _key(fact: FactAsked, facts: SongFacts) -> Said:
    found = facts.keys_in(facts.span(fact))
    words = ", then ".join(name for name, _ in groupby(str(key) for _, key, _ in found))
    heard = [inferred for _, _, inferred in found if inferred is not None]
    if not heard:
        return Said(words, "The project says so.")
    doubtful = min(heard, key=lambda inferred: inferred.sureness)
    runner_up = str(doubtful.runner_up) if doubtful.runner_up and doubtful.sureness < _CLEAR else ""
    return Said(words, " ".join(inferred.reason for inferred in heard), doubtful.sureness, runner_up)


ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {
    "numerals": _numerals,
    "chord": _chord,
    "numeral": _numeral,
    "function": _function,
    "key": _key,
}

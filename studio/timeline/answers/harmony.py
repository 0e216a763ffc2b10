"""Answers about chords and keys."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from studio.project.model import FactAsked
from studio.theory.harmony.reading import Reading
from studio.theory.wording import key_words, progression_words, reading_note
from studio.timeline.answers.said import Said
from studio.timeline.song_facts import SongFacts


def _numerals(fact: FactAsked, facts: SongFacts) -> Said:
    readings = facts.readings(facts.span(fact))
    reasons = " ".join(dict.fromkeys(reading.reason for reading in readings if reading.reason))
    sureness = min((reading.sureness for reading in readings), default=1.0)
    return Said(progression_words(readings), reasons, sureness, _with_runners_up(readings))


def _with_runners_up(readings: tuple[Reading, ...]) -> str:
    """The same progression with the second reading wherever there is one."""
    if not any(reading.runner_up for reading in readings):
        return ""
    others = dict.fromkeys(reading.runner_up or reading.numeral or "N.C." for reading in readings)
    return "–".join(others)


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
    return Said(reading.numeral, reading.reason, reading.sureness, reading.runner_up)


def _function(fact: FactAsked, facts: SongFacts) -> Said:
    reading = _reading(fact, facts)
    words = reading.function or reading_note(reading) or "no function of its own"
    return Said(words, reading.reason, reading.sureness)


def _key(fact: FactAsked, facts: SongFacts) -> Said:
    found = facts.keys_in(facts.span(fact))
    words = ", then ".join(dict.fromkeys(str(key) for _, key, _ in found))
    heard = [inferred for _, _, inferred in found if inferred is not None]
    if not heard:
        return Said(words, "The project says so.", also=tuple(key_words(key) for _, key, _ in found[:1]))
    surest = min(heard, key=lambda inferred: inferred.sureness)
    runner_up = str(surest.runner_up) if surest.runner_up and surest.sureness < 0.9 else ""
    return Said(words, " ".join(inferred.reason for inferred in heard), surest.sureness, runner_up)


ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {
    "numerals": _numerals,
    "chord": _chord,
    "numeral": _numeral,
    "function": _function,
    "key": _key,
}

"""Answers about a written line: its notes, its range, its mode."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from studio.project.model import FactAsked
from studio.theory.melody.approaches import half_step_approaches
from studio.theory.melody.compass import Compass, compass
from studio.theory.melody.degrees import NoteReading, reading_at
from studio.theory.melody.modes import read_mode
from studio.theory.plain_english import sentence
from studio.theory.wording import (
    decides_words,
    degree_words,
    half_step_words,
    highest_words,
    lowest_words,
    mode_words,
    range_words,
    scale_degree_words,
    tessitura_words,
    tone_words,
)
from studio.timeline.answers.said import Said
from studio.timeline.song_facts import SongFacts

_MOST = 3  # approaches that fit on a line


def _note(fact: FactAsked, facts: SongFacts) -> NoteReading:
    assert fact.at is not None
    reading = reading_at(facts.whole_melody(fact.parts[0]), fact.at)
    assert reading is not None, "the project room has seen a note there"
    return reading


def _degree(fact: FactAsked, facts: SongFacts) -> Said:
    reading = _note(fact, facts)
    also = (reading.degree.alternative,) if reading.degree else ()
    return Said(degree_words(reading), reading.reason, reading.sureness, also=also)


def _scale_degree(fact: FactAsked, facts: SongFacts) -> Said:
    reading = _note(fact, facts)
    words = scale_degree_words(reading, facts.style)
    name = str(reading.note.pitch.name)
    return Said(words or name, f"{name} is written there.", also=(words.partition(" of ")[0], name))


def _tone(fact: FactAsked, facts: SongFacts) -> Said:
    reading = _note(fact, facts)
    return Said(
        tone_words(reading), reading.reason, reading.sureness, reading.runner_up, also=(reading.kind,)
    )


def _compass(fact: FactAsked, facts: SongFacts) -> Compass:
    found = compass(facts.song.parts[fact.parts[0]].part.notes, facts.span(fact))
    assert found is not None, "the project room has seen notes there"
    return found


def _range(fact: FactAsked, facts: SongFacts) -> Said:
    found = _compass(fact, facts)
    lowest, highest = found.lowest.pitch, found.highest.pitch
    also = (f"{lowest}–{highest}", tessitura_words(found))
    return Said(range_words(found), found.reason, also=also)


def _highest(fact: FactAsked, facts: SongFacts) -> Said:
    found = _compass(fact, facts)
    return Said(highest_words(found, facts.song.time), found.reason, also=(str(found.highest.pitch),))


def _lowest(fact: FactAsked, facts: SongFacts) -> Said:
    found = _compass(fact, facts)
    return Said(lowest_words(found, facts.song.time), found.reason, also=(str(found.lowest.pitch),))


def _approaches(fact: FactAsked, facts: SongFacts) -> Said:
    found = half_step_approaches(facts.whole_melody(fact.parts[0]), facts.span(fact))
    words = [half_step_words(approach, facts.song.time) for approach in found]
    if len(words) > _MOST + 1:
        words[_MOST:] = [f"and {len(words) - _MOST} more"]
    reason = found[0].reason if found else "No chord tone is reached by a half step."
    return Said("; ".join(words) or "no half steps into chord tones", reason)


def _mode(fact: FactAsked, facts: SongFacts) -> Said:
    span = facts.span(fact)
    notes = facts.notes(fact.parts[0], span)
    home = fact.tonic or facts.home(max(notes[0].onset, span.start))
    found = read_mode(notes, home, span, facts.melody(fact.parts[0], span))
    scales = [*dict.fromkeys(name for one in found.candidates for name in (str(one.scale), one.scale.name))]
    names = (*scales, *(f"{found.tonic} {scale}" for scale in scales))
    decided = found.scale is not None
    also, possible = (names, ()) if decided else ((), names)
    reason = found.reason if decided else f"{found.reason} {sentence(decides_words(found))}".strip()
    return Said(mode_words(found), reason, found.sureness, found.runner_up, also, possible)


ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {
    "degree": _degree,
    "scale degree": _scale_degree,
    "tone": _tone,
    "range": _range,
    "highest": _highest,
    "lowest": _lowest,
    "approaches": _approaches,
    "mode": _mode,
}

"""Answers about what chords do together."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from studio.music.chart import ChordAt
from studio.music.note import Note
from studio.project.model import FactAsked
from studio.theory.parts.voice_leading import first_to_last
from studio.theory.parts.voice_leading_written import written_leadings
from studio.theory.progression.cadences import last_cadence
from studio.theory.progression.cliches import find_lines
from studio.theory.progression.pace import harmonic_pace
from studio.theory.progression.pedals import find_pedals
from studio.theory.progression.plain_form import plain_form
from studio.theory.progression.sequences import longest_sequence
from studio.theory.wording import (
    cadence_words,
    cliche_words,
    in_style,
    leading_words,
    loop_name,
    loop_words,
    pace_words,
    pedal_words,
    sequence_words,
    written_leading_words,
)
from studio.timeline.answers.said import Said
from studio.timeline.song_facts import SongFacts


def _loop(fact: FactAsked, facts: SongFacts) -> Said:
    found = plain_form(facts.readings(facts.span(fact)), facts.song.time)
    names = (loop_name(found), found.form.name if found.form and found.form.bars else "")
    key = found.key or facts.key(found.span.start)
    words, reason, other = (
        in_style(text, key, facts.style) for text in (loop_words(found), found.reason, found.runner_up)
    )
    return Said(words, reason, found.sureness, other, also=(loop_words(found), *names))


def _cadence(fact: FactAsked, facts: SongFacts) -> Said:
    span = facts.span(fact)
    found = last_cadence(facts.readings(span), facts.song.time, facts.tune(span), facts.phrases(span))
    words = cadence_words(found)
    if found is None:
        return Said(words, "Nothing closes here.")
    also = (words.removesuffix(" cadence"), str(found.kind), f"{found.kind} cadence")
    return Said(words, found.reason, found.sureness, found.runner_up, also, span=found.span)


def _sequence(fact: FactAsked, facts: SongFacts) -> Said:
    found = longest_sequence(facts.readings(facts.span(fact)))
    if found is None:
        return Said(sequence_words(None), "No pattern of roots is moved and heard again.")
    return Said(
        sequence_words(found),
        found.reason,
        found.sureness,
        found.runner_up,
        also=(found.name,),
        span=found.span,
    )


def _cliche(fact: FactAsked, facts: SongFacts) -> Said:
    lines = find_lines(facts.readings(facts.span(fact)))
    found = max(lines, key=lambda line: len(line.notes), default=None)
    if found is None:
        return Said(cliche_words(None), "No line moves by step through these chords.")
    notes = "–".join(str(note) for note in found.notes)
    return Said(
        cliche_words(found), found.reason, found.sureness, found.runner_up, also=(notes,), span=found.span
    )


def _pedal(fact: FactAsked, facts: SongFacts) -> Said:
    pedals = find_pedals(facts.readings(facts.span(fact)))
    found = max(pedals, key=lambda pedal: pedal.span.length, default=None)
    if found is None:
        return Said(pedal_words(None), "No note is held in the bass under changing chords.")
    notes = " and ".join(str(note) for note in found.notes)
    return Said(
        pedal_words(found), found.reason, found.sureness, found.runner_up, also=(notes,), span=found.span
    )


def _pace(fact: FactAsked, facts: SongFacts) -> Said:
    found = harmonic_pace(facts.readings(facts.span(fact)), facts.song.time)
    return Said(pace_words(found), found.reason, found.sureness)


def _leading(fact: FactAsked, facts: SongFacts) -> Said:
    chords = [at for at in facts.song.chart.within(facts.span(fact)) if at.chord is not None]
    if fact.parts and len(chords) > 1:
        return _played(fact.parts[0], chords[0], chords[-1], facts)
    found = first_to_last(chords)
    if found is None:
        return Said(leading_words(None), "Fewer than two chords sound here.")
    return Said(leading_words(found), found.reason, found.sureness, found.runner_up)


def _played(part: str, first: ChordAt, last: ChordAt, facts: SongFacts) -> Said:
    """How a part gets from one chord to another, by the notes that it holds as each begins."""
    notes = facts.song.parts[part].part.notes
    moments = [_sounded(notes, at) for at in (first, last)]
    found = next(iter(written_leadings(notes, moments)), None)
    if found is None:
        return Said(f"{part} does not play both chords", "Nothing of it sounds over one of them.")
    return Said(written_leading_words(found), found.reason)


def _sounded(notes: Sequence[Note], at: ChordAt) -> Fraction:
    """The first moment of a chord at which something sounds."""
    return min((max(note.onset, at.start) for note in notes if note.sounds_in(at.span)), default=at.start)


ANSWERS: Mapping[str, Callable[[FactAsked, SongFacts], Said]] = {
    "loop": _loop,
    "cadence": _cadence,
    "sequence": _sequence,
    "cliche": _cliche,
    "pedal": _pedal,
    "pace": _pace,
    "leading": _leading,
}

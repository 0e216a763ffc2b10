"""Everything that the theory core says of a song, in the order in which a person would want it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from studio.facts_report.line_sheets import line_sheets
from studio.facts_report.sheet import Row, Sheet
from studio.music.groove import Drums
from studio.music.place import Span
from studio.theory.form.bars import bars_reading
from studio.theory.form.plan import form_of
from studio.theory.harmony.reading import Reading
from studio.theory.parts.voice_leading import leadings
from studio.theory.progression.cadences import find_cadences
from studio.theory.progression.cliches import find_lines
from studio.theory.progression.pace import harmonic_pace
from studio.theory.progression.pedals import find_pedals
from studio.theory.progression.plain_form import plain_form
from studio.theory.progression.sequences import find_sequences
from studio.theory.rhythm.reading import GrooveReading
from studio.theory.wording import (
    bars_words,
    cadence_with_chords,
    cliche_words,
    form_name_words,
    form_words,
    groove_words,
    key_plan_words,
    kick_words,
    leading_words,
    loop_name,
    loop_words,
    pace_words,
    pedal_words,
    reading_note,
    repeat_words,
    sequence_words,
    swing_words,
    syncopation_words,
    variation_words,
)
from studio.timeline.answers.form import plan_of_keys
from studio.timeline.answers.said import Answer
from studio.timeline.song_facts import SongFacts

_DOUBTFUL = 0.8  # below this sureness, the other reading is told as well


def sheets(facts: SongFacts, answers: Sequence[Answer]) -> Iterator[Sheet]:
    """The named facts first, then keys and form, chords by section, progressions, parts and grooves."""
    yield _answers(answers)
    yield _keys(facts)
    yield _form(facts)
    yield from _chords(facts)
    yield _progressions(facts)
    yield _leadings(facts)
    for part in facts.song.parts:
        yield from line_sheets(facts, part)
    yield _grooves(facts)


def _answers(answers: Sequence[Answer]) -> Sheet:
    rows = (
        (a.name, a.words, a.where, a.reason, a.expect, a.verdict, a.sureness, a.runner_up) for a in answers
    )
    columns = "fact, answer, where, why, (expected), (verdict), (sureness), (runner-up)"
    return Sheet.of("Facts", columns, rows)


def _keys(facts: SongFacts) -> Sheet:
    rows: list[Row] = []
    for span, key, inferred in facts.keys_in(facts.whole):
        where = facts.song.time.words(span)
        if inferred is None:
            rows.append((where, str(key), "written in the project", 1.0, ""))
        else:
            other = str(inferred.runner_up or "")
            known = f"found: {inferred.reason}" + _or(other, inferred.sureness)
            rows.append((where, str(key), known, inferred.sureness, other))
    return Sheet.of("Keys", "where, key, how it is known, (sureness), (runner-up)", rows)


def _form(facts: SongFacts) -> Sheet:
    time = facts.song.time
    form = form_of(facts.sections, facts.all_readings, time)
    plan = plan_of_keys(facts, facts.whole)
    again = {repeat.section: repeat_words(repeat, form) for repeat in form.repeats}
    rows: list[Row] = []
    for place, (name, span) in enumerate(facts.sections):
        bars = bars_reading(span, time, facts.readings(span), facts.tune(facts.whole))
        why = bars.reason if bars.pickup is None else f"{bars.reason} {bars.pickup.reason}"
        rows.append((name, time.words(span), bars_words(bars), again.get(place, ""), why, bars.sureness))
    if len(facts.sections) > 1 or form.name:
        words = form_name_words(form) or form_words(form)
        rows.append(("whole song", time.words(facts.whole), words, "", form.reason, form.sureness))
    if len(plan.stages) > 1:
        rows.append(("keys", time.words(facts.whole), key_plan_words(plan), "", "", plan.sureness))
    return Sheet.of("Form", "section, bars, length, repeats, (why), (sureness)", rows)


def _chords(facts: SongFacts) -> Iterator[Sheet]:
    spans = facts.sections or (("the whole song", facts.whole),)
    columns = "bar, chord, numeral, key, function, what it is, (kind), (why), (sureness), (runner-up)"
    first: dict[tuple[object, ...], str] = {}
    alike: dict[str, list[str]] = {}
    for name, span in spans:
        earlier = first.setdefault(_sound(facts.readings(span), span), name)
        alike.setdefault(earlier, []).append(name)
    for name, span in spans:
        rows = (_chord(facts, reading) for reading in facts.readings(span))
        sheet = Sheet.of(f"Chords: {name}", columns, rows, detail=name not in alike)
        others = alike.get(name, [])[1:]
        yield replace(sheet, note=f"The same again in {', '.join(others)}." if others else "")


def _sound(readings: Sequence[Reading], span: Span) -> tuple[object, ...]:
    """What a section's chords are and when, so that sections that are alike can be told once."""
    return tuple(
        (reading.at.start - span.start, reading.at.chord, reading.key, reading.numeral)
        for reading in readings
    )


def _chord(facts: SongFacts, reading: Reading) -> Row:
    note = reading_note(reading) + _or(reading.runner_up, reading.sureness)
    return (
        str(facts.song.time.place(reading.at.start)),
        reading.at.chord.text if reading.at.chord else "N.C.",
        reading.numeral,
        str(reading.key),
        reading.function,
        note.removeprefix("; "),
        reading.kind,
        reading.reason,
        reading.sureness,
        reading.runner_up,
    )


def _or(runner_up: str, sureness: float) -> str:
    return f"; or {runner_up}" if runner_up and sureness < _DOUBTFUL else ""


def _progressions(facts: SongFacts) -> Sheet:
    spans = facts.sections or (("the whole song", facts.whole),)
    rows = [(name, *row) for name, span in spans for row in _progression(facts, span)]
    return Sheet.of("Progressions", "section, what, answer, where, (why), (sureness), (runner-up)", rows)


def _progression(facts: SongFacts, span: Span) -> Iterator[Row]:
    readings, time = facts.readings(span), facts.song.time
    if not any(reading.at.chord for reading in readings):
        return
    loop = plain_form(readings, time)
    named = f" · {loop_name(loop)}" if loop_name(loop) else ""
    what = "loop" if loop.repeats else "progression"
    yield what, loop_words(loop) + named, time.words(loop.span), loop.reason, loop.sureness, loop.runner_up
    pace = harmonic_pace(readings, time)
    yield "pace", pace_words(pace), time.words(pace.span), pace.reason, pace.sureness, ""
    for cadence in find_cadences(readings, time, (span,), facts.tune(span), facts.phrases(span)):
        where = time.moment(cadence.at)
        yield (
            "cadence",
            cadence_with_chords(cadence),
            where,
            cadence.reason,
            cadence.sureness,
            cadence.runner_up,
        )
    for sequence in find_sequences(readings):
        where = time.words(sequence.span)
        yield "sequence", sequence_words(sequence), where, sequence.reason, sequence.sureness, ""
    for line in find_lines(readings):
        yield "line", cliche_words(line), time.words(line.span), line.reason, line.sureness, line.runner_up
    for pedal in find_pedals(readings):
        where = time.words(pedal.span)
        yield "pedal", pedal_words(pedal), where, pedal.reason, pedal.sureness, pedal.runner_up


def _leadings(facts: SongFacts) -> Sheet:
    """Each pair of neighbouring chords once, where it is first heard."""
    found = {(one.one, one.two): one for one in reversed(leadings(facts.song.chart.chords))}
    pairs = sorted(found.values(), key=lambda one: one.span.start)
    time = facts.song.time
    rows = (
        (str(time.place(one.span.start)), f"{one.one.text} – {one.two.text}", leading_words(one), one.total)
        for one in pairs
    )
    return Sheet.of(
        "Voice leading", "bar, chords, how the notes move, (half steps in all)", rows, detail=True
    )


def _grooves(facts: SongFacts) -> Sheet:
    """A pattern as it is written; a drum part as it is played in each section."""
    rows: list[Row] = []
    for name, source in facts.song.grooves.items():
        played = facts.sections if isinstance(source, Drums) else ()
        for section, span in played or (("", None),):
            found = facts.groove(name, span)
            if found.groove.lines:
                rows.append((f"{name} · {section}" if section else name, *_groove(found)))
    columns = "groove, what it does, kick, variation, (swing), (syncopation), (why), (sureness)"
    return Sheet.of("Grooves", columns, rows)


def _groove(found: GrooveReading) -> Row:
    return (
        *(groove_words(found), kick_words(found), variation_words(found)),
        *(swing_words(found), syncopation_words(found), found.reason, found.sureness),
    )

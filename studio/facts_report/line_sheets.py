"""What the theory core says of one written part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from studio.facts_report.sheet import Row, Sheet
from studio.facts_report.voicing_sheet import voicing_sheet
from studio.music.place import Span
from studio.theory.melody.approaches import half_step_approaches
from studio.theory.melody.compass import compass
from studio.theory.melody.degrees import NoteReading
from studio.theory.melody.modes import read_mode
from studio.theory.parts.against_chart import against_chart
from studio.theory.parts.figures import read_figures
from studio.theory.wording import (
    approach_words,
    beat_words,
    decides_words,
    degree_words,
    figure_words,
    foreign_words,
    half_step_words,
    highest_words,
    lowest_words,
    mode_words,
    played_words,
    range_words,
    scale_degree_words,
    tessitura_words,
    tone_words,
)
from studio.timeline.song_facts import SongFacts


def line_sheets(facts: SongFacts, part: str) -> Iterator[Sheet]:
    """The part as a whole, its notes that are no chord tones, what it plays over each chord, and every note."""
    yield _whole(facts, part)
    yield _tones(facts, part)
    yield _figures(facts, part)
    yield voicing_sheet(facts, part)
    yield _against(facts, part)
    yield _notes(facts, part)


def _whole(facts: SongFacts, part: str) -> Sheet:
    rows = [*_compass(facts, part), *_modes(facts, part), *_approaches(facts, part)]
    return Sheet.of(f"Part: {part}", "what, answer, where, why, (sureness)", rows)


def _compass(facts: SongFacts, part: str) -> Iterator[Row]:
    found, time = compass(facts.song.parts[part].part.notes, facts.whole), facts.song.time
    if found is not None:
        where = time.words(found.span)
        yield "range", f"{range_words(found)}, {tessitura_words(found)}", where, found.reason, found.sureness
        yield "highest", highest_words(found, time), where, "", 1.0
        yield "lowest", lowest_words(found, time), where, "", 1.0


def _modes(facts: SongFacts, part: str) -> Iterator[Row]:
    for name, span in facts.sections or (("the whole song", facts.whole),):
        notes = facts.notes(part, span)
        if notes:
            found = read_mode(
                notes, facts.home(max(notes[0].onset, span.start)), span, facts.melody(part, span)
            )
            more = "; ".join(words for words in (decides_words(found), foreign_words(found)) if words)
            why = more or found.reason
            yield f"mode of {name}", mode_words(found), facts.song.time.words(span), why, found.sureness


def _approaches(facts: SongFacts, part: str) -> Iterator[Row]:
    found = half_step_approaches(facts.whole_melody(part))
    counted = Counter(half_step_words(one, facts.song.time).partition(",")[0] for one in found)
    if found:
        words = ", ".join(f"{pair} ×{times}" if times > 1 else pair for pair, times in counted.most_common(6))
        yield "half steps into chord tones", words, f"{len(found)} in all", "", 1.0


def _tones(facts: SongFacts, part: str) -> Sheet:
    """The notes that are no chord tones: what a teacher would point at."""
    told = [one for one in facts.whole_melody(part) if one.kind not in ("chord tone", "no chord")]
    columns = "bar, note, over, degree, what it does, why, (sureness), (runner-up)"
    rows = (
        (
            str(facts.song.time.place(one.span.start)),
            str(one.note.pitch),
            _over(one),
            degree_words(one),
            tone_words(one),
            one.reason,
            one.sureness,
            one.runner_up,
        )
        for one in told
    )
    return Sheet.of(f"Part: {part}, notes that are no chord tones", columns, rows, detail=len(told) > 40)


def _figures(facts: SongFacts, part: str) -> Sheet:
    """What each hand plays over each chord, neighbours that are alike told once."""
    spans, time = facts.harmony_spans(facts.whole), facts.song.time
    rows: list[Row] = []
    last: dict[int, tuple[str, Span]] = {}
    for figure in read_figures(facts.song.parts[part].part.notes, spans, None, facts.song.chart):
        words = figure_words(figure)
        before, span = last.get(figure.staff, ("", figure.span))
        if figure.kind and (before != words or span.end != figure.span.start):
            rows.append((str(time.place(figure.span.start)), words, figure.reason, figure.sureness))
        last[figure.staff] = (words, figure.span)
    return Sheet.of(f"Part: {part}, figures", "bar, figure, (why), (sureness)", rows, detail=True)


def _against(facts: SongFacts, part: str) -> Sheet:
    """Where a part that plays chords plays another chord than the chart has."""
    played = against_chart(facts.song.parts[part].part.notes, facts.song.chart, facts.keys)
    rows = (
        (str(facts.song.time.place(one.written.start)), played_words(one), one.reason)
        for one in played
        if one.difference in ("more", "other")
    )
    return Sheet.of(f"Part: {part}, against the chart", "bar, chords, why", rows, detail=True)


def _notes(facts: SongFacts, part: str) -> Sheet:
    columns = (
        "bar, note, over, degree, other name, scale degree, what it does, come to, left, beat, why, "
        "sureness, runner-up"
    )
    rows = (
        (
            str(facts.song.time.place(one.span.start)),
            str(one.note.pitch),
            _over(one),
            degree_words(one),
            one.degree.alternative if one.degree else "",
            scale_degree_words(one, facts.style),
            tone_words(one),
            approach_words(one.approach),
            approach_words(one.departure),
            beat_words(one),
            one.reason,
            one.sureness,
            one.runner_up,
        )
        for one in facts.whole_melody(part)
    )
    return Sheet.of(f"Part: {part}, every note", columns, rows, detail=True)


def _over(reading: NoteReading) -> str:
    at = reading.chord_at
    return at.chord.text if at is not None and at.chord is not None else "N.C."

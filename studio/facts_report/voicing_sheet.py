"""How a part lays out its chords, and how it gets from each to the next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from studio.facts_report.sheet import Row, Sheet
from studio.music.note import Note
from studio.theory.parts.voice_leading_written import written_leadings
from studio.theory.parts.voicings import read_voicings
from studio.theory.wording import hands_words, spread_words, voicing_words, written_leading_words
from studio.timeline.song_facts import SongFacts

_CHORD = 3  # notes at once


def voicing_sheet(facts: SongFacts, part: str) -> Sheet:
    """One row for each harmony under which three notes or more sound at once; none for a tune."""
    notes = facts.song.parts[part].part.notes
    moments = tuple(_struck(notes, facts))
    voicings = read_voicings(notes, moments, facts.song.chart)
    onward = [written_leading_words(leading) for leading in written_leadings(notes, moments)]
    rows: Iterator[Row] = (
        (
            str(facts.song.time.place(at)),
            voicing_words(voicing),
            spread_words(voicing),
            hands_words(voicing),
            following,
        )
        for at, voicing, following in zip(moments, voicings, [*onward, ""], strict=False)
    )
    columns = "bar, voicing, spread, hands, to the next"
    return Sheet.of(f"Part: {part}, voicings", columns, rows, detail=True)


def _struck(notes: Sequence[Note], facts: SongFacts) -> Iterator[Fraction]:
    """The first moment of each harmony at which a chord sounds."""
    for span in facts.harmony_spans(facts.whole):
        inside = [note for note in notes if note.sounds_in(span)]
        moments = sorted({max(note.onset, span.start) for note in inside})
        full = (at for at in moments if sum(note.sounds_at(at) for note in inside) >= _CHORD)
        if (at := next(full, None)) is not None:
            yield at

"""What is played over a stretch of the song: the chart's chords or a part, as written or with something changed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from studio.music.place import Span
from studio.project.model import Instead, Play
from studio.timeline.heard import Tone
from studio.timeline.playing.beside import Tunes
from studio.timeline.playing.chart_chords import chord_strokes, chords_played
from studio.timeline.playing.part_notes import note_strokes, notes_played, with_changes
from studio.timeline.playing.stroke import Stroke, tones
from studio.timeline.song_facts import SongFacts

HOLDING = "sustained"
"""The sound that does not die away under a held key."""


def tones_of(
    play: Play,
    span: Span,
    facts: SongFacts,
    instead: Sequence[Instead] = (),
    beside: Sequence[Play] = (),
) -> tuple[Tone, ...]:
    """The tones of a placed `play` over a stretch, in samples of recording time and cut to it.

    With `instead`, as the changed pass sounds. Chords keep out of the way of the parts among `beside`. Raises
    ValueError, in one plain sentence, for what cannot be played or changed.
    """
    strokes, _ = _played(play, span, facts, instead, beside)
    return tones(strokes, span, facts.song.time)


def replaced(play: Play, span: Span, facts: SongFacts, instead: Sequence[Instead]) -> tuple[Span, ...]:
    """The stretches, in quarters, in which the changed pass sounds otherwise: within `span`, in order, apart.

    Raises ValueError as `tones_of` does.
    """
    _, differing = _played(play, span, facts, instead)
    return _joined(both for one in differing if (both := one.intersection(span)) is not None and both.length)


def _played(
    play: Play, span: Span, facts: SongFacts, instead: Sequence[Instead], beside: Sequence[Play] = ()
) -> tuple[list[Stroke], list[Span]]:
    """The keys that go down, and where they are not those that are written."""
    if play.what == "chords":
        pieces = chords_played(facts, span, instead)
        chart = facts.song.chart.within(span)
        tunes = Tunes(
            tuple(
                facts.notes(one.name, span)
                for one in beside
                if one.what == "part" and one.name in facts.song.parts
            ),
            span,
        )
        strokes = chord_strokes(pieces, chart, facts.song.time, play.sound == HOLDING, tunes)
        return strokes, [piece.span for piece in pieces if piece.changed]
    if play.what != "part":
        raise ValueError(f"'{play.name}' stands in no place of the song; play chords or a part here")
    notes = notes_played(facts, play.name, span)
    if instead:
        return with_changes(notes, instead, facts, play.name, span)
    return note_strokes(notes, facts, span), []


def _joined(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Stretches in order, those that touch or overlap made one."""
    found: list[Span] = []
    for span in sorted(spans):
        if found and span.start <= found[-1].end:
            found[-1] = Span(found[-1].start, max(found[-1].end, span.end))
        else:
            found.append(span)
    return tuple(found)

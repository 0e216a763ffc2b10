"""The chart's chords as a pianist would play them from a lead sheet: bass and right hand together, one chord led
into the next, struck at each change.

A chord that has rung for a bar or more is struck again at the next bar line, since a string dies away; an organ
holds on. One that comes early and is tied over the bar line is not struck twice (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise, takewhile

from studio.music.chart import ChordAt
from studio.music.chord import Chord
from studio.music.place import Span
from studio.music.songtime import SongTime
from studio.project.model import Instead
from studio.theory.parts.close_voicing import CloseVoicing, close_voicings
from studio.timeline.playing.accents import loud_at
from studio.timeline.playing.beside import Tunes
from studio.timeline.playing.read_instead import chord_or_rest, where
from studio.timeline.playing.stroke import Stroke
from studio.timeline.song_facts import SongFacts


@dataclass(frozen=True, slots=True)
class Piece:
    """A chord as it is played over `span`; None for silence. `written` is its place among the chart's chords, and
    `changed` whether another chord stands there."""

    span: Span
    chord: Chord | None
    written: int
    changed: bool = False


def chords_played(facts: SongFacts, span: Span, instead: Sequence[Instead]) -> tuple[Piece, ...]:
    """The chords of a stretch with the changes in them. Raises ValueError where there is nothing to play or change."""
    chart = facts.song.chart.within(span)
    if not any(at.chord for at in chart):
        raise ValueError(
            f"there are no chords in {facts.words(span)} to play; write them in song: chords, or play a part"
        )
    pieces = tuple(Piece(at.span, at.chord, number) for number, at in enumerate(chart))
    for change in instead:
        pieces = _changed(pieces, change, span, facts)
    return pieces


def chord_strokes(
    pieces: Sequence[Piece], chart: Sequence[ChordAt], time: SongTime, holds: bool, tunes: Tunes
) -> list[Stroke]:
    """The keys that go down for them beside some tunes; `holds` for a sound that does not die away."""
    found = []
    for piece, voicing in zip(pieces, _voiced(pieces, chart), strict=True):
        if voicing is None:
            continue
        starts = [piece.span.start] if holds else list(_struck(piece.span, time))
        for start, end in zip(starts, [*starts[1:], piece.span.end], strict=True):
            loud, held, bass = loud_at(start, time), Span(start, end), voicing.bass.midi
            keys = (bass, *tunes.hand([pitch.midi for pitch in voicing.upper], bass, held))
            found += [Stroke(held, midi, loud) for midi in keys]
    return found


def _struck(span: Span, time: SongTime) -> Iterator[Fraction]:
    """Where a chord is struck: at its start, and at each bar line by which it has rung for a bar."""
    last = span.start
    yield last
    for bar, start in time.barlines(span):
        if start - last >= time.meter(bar - 1).bar:
            last = start
            yield last


def _voiced(pieces: Sequence[Piece], chart: Sequence[ChordAt]) -> Iterator[CloseVoicing | None]:
    """How each is laid out. What is not changed lies as it would without the change, so that only the change differs;
    a changed one is led out of what comes before it."""
    sounding = [at.chord for at in chart if at.chord is not None]
    written = iter(close_voicings(sounding))
    as_written = [next(written) if at.chord is not None else None for at in chart]
    for number, piece in enumerate(pieces):
        if not piece.changed or piece.chord is None:
            yield as_written[piece.written] if piece.chord is not None else None
            continue
        run = list(takewhile(lambda one: one.changed, reversed(pieces[: number + 1])))[::-1]
        first = number + 1 - len(run)
        led = [at.chord for at in chart[: pieces[first - 1].written + 1]] if first else []
        led += [one.chord for one in run]
        yield close_voicings([chord for chord in led if chord is not None])[-1]


def _changed(pieces: Sequence[Piece], change: Instead, span: Span, facts: SongFacts) -> tuple[Piece, ...]:
    """The pieces with one more change, cut where it begins and ends; chords keep their rhythm, and silence stays."""
    chord = chord_or_rest(change, facts.song.time)
    place = _target(pieces, change, span, facts)
    found: list[Piece] = []
    differs = False
    for piece in pieces:
        for part in _cut(piece.span, place):
            if piece.chord is None or not place.overlaps(part):
                found.append(replace(piece, span=part))
                continue
            if piece.changed:
                raise ValueError(f"two changes meet in {facts.words(part)}; write one for each chord")
            differs = differs or chord != piece.chord
            found.append(Piece(part, chord, piece.written, changed=True))
    if not differs:
        sentence = f"'{change.sound}' is what is written in {facts.words(place)} already"
        raise ValueError(f"{sentence}; name another chord, or rest")
    return tuple(found)


def _target(pieces: Sequence[Piece], change: Instead, span: Span, facts: SongFacts) -> Span:
    """The stretch of a change: for a moment, the whole of the chord that sounds at it."""
    time = facts.song.time
    if not change.span.length:
        at = change.span.start
        here = next((piece for piece in pieces if piece.chord and piece.span.contains(at)), None)
        if here is not None:
            return here.span
    else:
        both = change.span.intersection(span)
        if both is not None and any(piece.chord and piece.span.overlaps(both) for piece in pieces):
            return both
    raise ValueError(
        f"no chord that is played sounds at {where(change, time)}; name a place in {facts.words(span)} with one"
    )


def _cut(span: Span, place: Span) -> Iterator[Span]:
    """The span in up to three pieces: before, within and after a place."""
    edges = sorted({span.start, span.end, *(at for at in (place.start, place.end) if span.contains(at))})
    yield from (Span(start, end) for start, end in pairwise(edges))

"""What a staff shows before it is known how it is set: a part or a groove as notation, and when what sounds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from studio.drawing.notation.drum_strokes import line_names, strokes_over
from studio.drawing.notation.note_labels import (
    Bars,
    count_labels,
    degree_labels,
    head_id,
    interval_labels,
    note_id,
    scale_degree_labels,
)
from studio.drawing.notation.system import LineName, NoteLabel
from studio.drawing.notation.tab_places import tablature
from studio.music.note import Note
from studio.project.drum_engraving import engrave_drums
from studio.project.tablature import with_tablature
from studio.theory.fretboard.tuning import Tuning
from studio.timeline.ask import Ask

Labels = Literal["degrees", "scale degrees", "intervals", "chords", "counts", "none"]

PILE = 3
"""Degrees that may stand under one another where notes sound together."""


@dataclass(frozen=True)
class Sound:
    """Something that is engraved, and when it sounds; `said` is what the alternative text calls it."""

    id: str
    start: Fraction
    end: Fraction
    said: str


@dataclass(frozen=True)
class Score:
    """What is engraved, before it is known how it is set."""

    musicxml: str
    sounds: tuple[Sound, ...]
    labels: tuple[NoteLabel, ...]
    names: tuple[LineName, ...] = ()


def part_score(
    part: str, labels: Labels, ask: Ask, bars: Bars, tuning: Tuning | None = None, notes_too: bool = True
) -> Score:
    """A part as notes, and with a `tuning` as tablature: under the notes, or alone where not `notes_too`."""
    numbered = ask.numbered(part, bars.span)
    if not numbered:
        ask.refuse("part", f"'{part}' has no notes in these bars")
    notes = tuple(dict.fromkeys(note for _, note in numbered))  # a unison is one note to whoever hears it
    piled = max(Counter(note.onset for note in notes).values())
    if labels in ("degrees", "scale degrees") and piled > PILE:
        ask.refuse("labels", f"{piled} notes sound at once; write 'labels: chords', or choose a melody part")
    if labels == "intervals" and piled > 1:
        ask.refuse("labels", "intervals go along a line, and here notes sound together; choose a melody part")
    musicxml = ask.musicxml(part, bars.span, {})
    if tuning is not None:
        if any(note.staff > 1 for note in notes):
            ask.refuse(
                "tab", f"'{part}' is written on two staves, which tablature cannot show; choose another part"
            )
        musicxml = _with_tab(musicxml, part, tuning, notes_too, ask, bars)
    sounds = tuple(Sound(head_id(number), n.onset, n.end, str(n.pitch)) for number, n in numbered)
    return Score(musicxml, sounds, _labels(labels, part, ask, bars, notes))


def _with_tab(musicxml: str, part: str, tuning: Tuning, notes_too: bool, ask: Ask, bars: Bars) -> str:
    numbered = ask.numbered(part, ask.time.bars(bars.first, bars.last))
    tab = tablature(numbered, tuning, lambda sentence: ask.refuse("tab", sentence))
    return with_tablature(musicxml, tab, notes_too)


def _labels(labels: Labels, part: str, ask: Ask, bars: Bars, notes: Sequence[Note]) -> tuple[NoteLabel, ...]:
    if labels == "degrees":
        return degree_labels(part, ask, bars)
    if labels == "scale degrees":
        return scale_degree_labels(part, ask, bars)
    if labels == "intervals":
        return interval_labels(part, ask, bars, notes)
    if labels == "counts":
        starting: dict[Fraction, list[str]] = {}
        for note in notes:
            if bars.span.contains(note.onset):
                starting.setdefault(note.onset, []).append(note_id(ask, part, note))
        return count_labels(list(starting), list(starting.values()), bars)
    return ()


def drum_score(groove: str, labels: Labels, ask: Ask, bars: Bars) -> Score:
    """A groove as a drum staff, its pattern repeated over the bars. A stroke sounds until the next, for a beat at
    most."""
    time, span = ask.time, bars.span
    strokes = strokes_over(
        ask.facts.song.grooves[groove],
        time,
        ask.facts.sections,
        span,
        lambda sentence: ask.refuse("groove", sentence),
    )
    if not strokes:
        ask.refuse("groove", f"'{groove}' has no strokes in these bars")
    ids: dict[Fraction, list[str]] = {}
    for number, stroke in enumerate(strokes):
        ids.setdefault(stroke.onset, []).append(head_id(number))
    onsets = sorted(ids)
    until = dict(zip(onsets, [*onsets[1:], span.end], strict=True))
    sounds = tuple(
        Sound(
            head_id(number),
            stroke.onset,
            min(until[stroke.onset], stroke.onset + time.meter(time.bar_at(stroke.onset)).beat),
            stroke.voice,
        )
        for number, stroke in enumerate(strokes)
    )
    counted = count_labels(onsets, [ids[at] for at in onsets], bars) if labels == "counts" else ()
    return Score(engrave_drums(strokes, time, span), sounds, counted, line_names(strokes))

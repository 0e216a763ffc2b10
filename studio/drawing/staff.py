"""The staff callout: engraved bars, what each note is under it, and the notes that sound lit in time."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from PIL import Image

from studio.drawing.frame import LOWER, CanvasSize
from studio.drawing.reading_words import chord_words
from studio.drawing.system import ChordOver, NoteLabel, Playing, Staff, draw_system, systems, systems_height
from studio.drawing.theme import Theme, default_theme
from studio.music.note import Note
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, PartName
from studio.project.model import Canvas
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed

SPACE = 2.75
"""Units between two staff lines."""

PILE = 3
"""Degrees that may stand under one another where notes sound together."""


class StaffOptions(CalloutOptions):
    """Options of the staff callout."""

    part: PartName
    labels: Literal["degrees", "chords", "none"] = "degrees"


class StaffKind:
    """See the module."""

    name = "staff"
    Options = StaffOptions
    slot = LOWER

    def compose(self, options: StaffOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize(ask.canvas.width, ask.canvas.height)
        notes = ask.notes(options.part, span)
        if not notes:
            ask.refuse("part", f"'{options.part}' has no notes in these bars")
        labels = _labels(options, ask, span)
        piled = max((sum(1 for other in notes if other.onset == note.onset) for note in notes), default=0)
        if options.labels == "degrees" and piled > PILE:
            ask.refuse(
                "labels", f"{piled} notes sound at once; write 'labels: chords', or choose a melody part"
            )
        content = Staff(
            canvas=canvas,
            musicxml=ask.musicxml(options.part, span, {}),
            across=round((canvas.lane / canvas.unit - 6) / SPACE, 2),
            labels=labels,
            chords=() if options.labels == "none" else _chords(ask, span, notes, options.part),
        )
        states = _states(content, ask, options.part, span, notes)
        still = next((look for _, _, look in states if look.lit), Playing(0, ()))
        alt = _alt(options, content, notes)
        return Composed(content, states, still, Playing(0, ()), alt)

    def height(self, content: Staff, canvas: Canvas) -> int:
        return systems_height(content, SPACE, default_theme())

    def draw(self, content: Staff, look: Playing, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_system(content, look, size, SPACE, theme)


KIND = StaffKind()


def _labels(options: StaffOptions, ask: Ask, span: Span) -> tuple[NoteLabel, ...]:
    if options.labels != "degrees":
        return ()
    found = []
    for reading in ask.melody(options.part, span):
        if not span.start <= reading.note.onset < span.end:
            continue
        figure = reading.kind if any(sign in reading.kind for sign in ("suspension", "retardation")) else ""
        label = reading.degree.label if reading.degree else ""
        found.append(NoteLabel(_id(ask, options.part, reading.note), label, figure))
    return tuple(found)


def _chords(ask: Ask, span: Span, notes: Sequence[Note], part: str) -> tuple[ChordOver, ...]:
    """Each chord of the span beside the notes around its start, between which it stands."""
    onsets = sorted({note.onset: note for note in reversed(notes) if note.onset >= span.start}.items())
    found = []
    for reading in ask.readings(span):
        at = reading.at.start
        before = [(onset, note) for onset, note in onsets if onset <= at]
        after = [(onset, note) for onset, note in onsets if onset > at]
        if not before and not after:
            continue
        left = before[-1] if before else after[0]
        right = after[0] if after else left
        share = float((at - left[0]) / (right[0] - left[0])) if right[0] > left[0] and before else 0.0
        words = chord_words(reading.at.chord)
        found.append(ChordOver(words, _id(ask, part, left[1]), _id(ask, part, right[1]), share))
    return tuple(found)


def _states(
    content: Staff, ask: Ask, part: str, span: Span, notes: Sequence[Note]
) -> tuple[tuple[Fraction, Fraction, Playing], ...]:
    """One state from each moment at which the sounding notes change to the next."""
    page_of = {head.id: page for page, system in enumerate(systems(content)) for head in system.heads}
    edges = {span.start, span.end}
    edges |= {at for note in notes for at in (note.onset, note.end) if span.start < at < span.end}
    times = sorted(edges)
    states, page = [], 0
    for start, end in pairwise(times):
        lit = tuple(_id(ask, part, note) for note in notes if note.onset <= start < note.end)
        page = max((page_of[i] for i in lit if i in page_of), default=page)
        states.append((start, end, Playing(page, lit)))
    return tuple(states)


def _id(ask: Ask, part: str, note: Note) -> str:
    return f"n{ask.number(part, note)}"


def _alt(options: StaffOptions, content: Staff, notes: Sequence[Note]) -> str:
    named = {label.id: label.text for label in content.labels}
    said = ", ".join(str(note.pitch) for note in notes[:24]) + (" and more" if len(notes) > 24 else "")
    degrees = ", ".join(text for text in named.values() if text)
    return f"Notation of {options.part}: {said}." + (
        f" Degrees over the chords: {degrees}." if degrees else ""
    )

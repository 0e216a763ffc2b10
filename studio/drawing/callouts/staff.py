"""The staff callout: engraved bars, what each note is under it, and the notes that sound lit in time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from PIL import Image

from studio.drawing.frame import PADDING, CanvasSize
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.notation.system import (
    ChordOver,
    NoteLabel,
    Playing,
    Staff,
    draw_system,
    places,
    systems,
    systems_height,
    widest,
)
from studio.drawing.themes.theme import Theme
from studio.music.note import Note
from studio.music.place import Span
from studio.project.callouts import CalloutOptions, PartName
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed, Extent, Kind

SPACE, LARGE_SPACE = 2.75, 3.2
"""Units between two staff lines, and where there is little music to show."""

DEGREES = ("degrees", "scale degrees")
"""Labels that count each note: over its chord, or in its key."""

PILE = 3
"""Degrees that may stand under one another where notes sound together."""


class StaffOptions(CalloutOptions):
    """Options of the staff callout."""

    part: PartName
    labels: Literal["degrees", "scale degrees", "chords", "none"] = "degrees"


class StaffKind(Kind):
    """See the module."""

    name = "staff"
    says = "engraved notes, what each is under it, and what sounds lit in time"
    example = "{kind: staff, part: lead}"
    Options = StaffOptions

    def compose(self, options: StaffOptions, ask: Ask) -> Composed:
        span, canvas = ask.the_span(), CanvasSize.of(ask.canvas)
        notes = ask.notes(options.part, span)
        if not notes:
            ask.refuse("part", f"'{options.part}' has no notes in these bars")
        labels = _labels(options, ask, span)
        piled = max((sum(1 for other in notes if other.onset == note.onset) for note in notes), default=0)
        if options.labels in DEGREES and piled > PILE:
            ask.refuse(
                "labels", f"{piled} notes sound at once; write 'labels: chords', or choose a melody part"
            )
        room = ask.room.width / canvas.unit - 2 * PADDING
        content = Staff(
            canvas=canvas,
            musicxml=ask.musicxml(options.part, span, {}),
            across=round(room / SPACE, 2),
            space=SPACE,
            labels=labels,
            chords=() if options.labels == "none" else _chords(ask, span),
        )
        if len(systems(content)) == 1 and widest(content) * LARGE_SPACE <= room:
            content = replace(content, space=LARGE_SPACE)
        states = _states(content, ask, options.part, span, notes)
        still = next((look for _, _, look in states if look.lit), Playing())
        alt = _alt(options, content, notes)
        return Composed(content, states, still, Playing(), alt)

    def extent(self, content: Staff, width: int, theme: Theme) -> Extent:
        wanted = systems_height(content)
        return Extent(wanted * 0.75, wanted)

    def draw(self, content: Staff, look: Playing, size: tuple[int, int], theme: Theme) -> Image.Image:
        return draw_system(content, look, size, theme)


KIND = StaffKind()


def _labels(options: StaffOptions, ask: Ask, span: Span) -> tuple[NoteLabel, ...]:
    """One label for each note, and for each chord that a note is held into; the highest note's first."""
    if options.labels == "scale degrees":
        return _scale_degrees(options.part, ask, span)
    if options.labels != "degrees":
        return ()
    found: dict[tuple[str, float], NoteLabel] = {}
    readings = sorted(ask.melody(options.part, span), key=lambda r: (r.span.start, -r.note.pitch.midi))
    for reading in readings:
        start = max(reading.span.start, span.start)
        if reading.degree is None or not start < min(reading.span.end, span.end):
            continue
        figure = reading.kind if reading.kind.startswith(("suspension", "retardation")) else ""
        name, at = _id(ask, options.part, reading.note), _at(ask, span, start)
        found[name, at] = NoteLabel(name, at, reading.degree.label, figure)
    return tuple(found.values())


def _scale_degrees(part: str, ask: Ask, span: Span) -> tuple[NoteLabel, ...]:
    """One label for each note, whatever chords it is held into: what it is in the key."""
    found: dict[str, NoteLabel] = {}
    for reading in ask.melody(part, span):
        name, start = _id(ask, part, reading.note), max(reading.note.onset, span.start)
        found.setdefault(name, NoteLabel(name, _at(ask, span, start), ask.scale_degree(reading), ""))
    return tuple(label for label in found.values() if label.text)


def _chords(ask: Ask, span: Span) -> tuple[ChordOver, ...]:
    return tuple(
        ChordOver(chord_words(reading.at.chord), _at(ask, span, reading.at.start))
        for reading in ask.readings(span)
    )


def _states(
    content: Staff, ask: Ask, part: str, span: Span, notes: Sequence[Note]
) -> tuple[tuple[Fraction, Fraction, Playing], ...]:
    """One state from each moment at which what sounds, or what it is, changes to the next."""
    pages, zero = places(content), _zero(ask, span)
    edges = {span.start, span.end}
    edges |= {at for note in notes for at in (note.onset, note.end) if span.start < at < span.end}
    edges |= {reading.at.start for reading in ask.readings(span)}
    edges |= {
        ask.time.bars(bar, bar).start for bar in range(ask.time.bar_at(span.start) + 1, _last_bar(ask, span))
    }
    states = []
    for start, end in pairwise(sorted(at for at in edges if span.start <= at <= span.end)):
        at = float(start - zero)
        lit = tuple(_id(ask, part, note) for note in notes if note.onset <= start < note.end)
        states.append((start, end, Playing(pages.page(at), lit, _holding(content.labels, lit, at))))
    return tuple(states)


def _last_bar(ask: Ask, span: Span) -> int:
    """The bar after the last that the span touches."""
    return ask.time.bar_at(span.end) + 1


def _holding(labels: Sequence[NoteLabel], lit: Sequence[str], at: float) -> tuple[int, ...]:
    """The number of each sounding note's latest label."""
    latest = {label.id: n for n, label in enumerate(labels) if label.id in lit and label.at <= at + 1e-9}
    return tuple(sorted(latest.values()))


def _zero(ask: Ask, span: Span) -> Fraction:
    """Where the first bar that is engraved starts, in the song's quarter notes."""
    bar = ask.time.bar_at(span.start)
    return ask.time.bars(bar, bar).start


def _at(ask: Ask, span: Span, quarters: Fraction) -> float:
    return round(float(quarters - _zero(ask, span)), 6)


def _id(ask: Ask, part: str, note: Note) -> str:
    return f"n{ask.number(part, note)}"


def _alt(options: StaffOptions, content: Staff, notes: Sequence[Note]) -> str:
    said = ", ".join(str(note.pitch) for note in notes[:24]) + (" and more" if len(notes) > 24 else "")
    degrees = ", ".join(
        f"{label.text} ({label.figure})" if label.figure else label.text for label in content.labels
    )
    return f"Notation of {options.part}: {said}." + (
        f" Degrees {'of the key' if options.labels == 'scale degrees' else 'over the chords'}: {degrees}."
        if degrees
        else ""
    )

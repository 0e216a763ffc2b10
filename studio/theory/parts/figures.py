"""Recognising what a part plays: arpeggios, broken chords, block chords, power chords, octaves, walking lines.

One figure is read for each span (a bar, or a chord of the chart) and each hand. Lines of single notes are
``figure_lines``'s, notes struck together ``figure_chords``'s. Names are common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from studio.music.chart import Chart
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.theory.parts.figure import Figure
from studio.theory.parts.figure_chords import chordal_figure
from studio.theory.parts.figure_lines import line_figure
from studio.theory.parts.slices import InOrder, belonging_to, leading_on, strikes
from studio.theory.parts.sounding import sounding_over
from studio.theory.parts.walking import Line, as_one_walk

_EARLY = Fraction(1, 2)  # quarter notes by which the first note may come before its chord
_HELD = Fraction(3, 4)  # a bass note that is held over this share of the span or more lies under the figure
_FEWEST_OVER_PEDAL = 3  # notes over it that make a figure of their own


def read_figures(
    notes: Sequence[Note], spans: Sequence[Span], key: Key | None = None, chart: Chart | None = None
) -> tuple[Figure, ...]:
    """The figures over each span, one for each hand that plays, in order of time and then of staff.

    A span where nothing plays has one figure of kind "". A bass that walks on through several spans is called so
    in each. Where one chord of the chart holds over the span, or
    both hands together sound one chord, a hand that has only its notes plays that chord.
    """
    ordered, written_on = InOrder(notes), {note.staff for note in notes}
    found: list[Figure] = []
    lines: list[Line] = []
    for span in spans:
        near = ordered.near(span)
        staves = sorted({note.staff for note in belonging_to(near, span)})
        hands = len(staves) > 1
        chord = _only_chord(chart, span)
        chord = _of_both_hands(near, span, key, chord) if hands else chord
        for staff in staves or [0]:
            own = [note for note in near if note.staff == staff]
            figure = figure_over(own, span, key, chord, alone=not hands)
            found.append(replace(figure, staff=staff if len(written_on) > 1 else 0))
            lines.append(_line(own, span))
    return _with_walks(found, lines)


def _with_walks(figures: Sequence[Figure], lines: Sequence[Line]) -> tuple[Figure, ...]:
    found = [*figures]
    for staff in {figure.staff for figure in figures}:
        places = [place for place, figure in enumerate(figures) if figure.staff == staff]
        walked = as_one_walk([figures[place] for place in places], [lines[place] for place in places])
        for place, figure in zip(places, walked, strict=True):
            found[place] = figure
    return tuple(found)


def figure_over(
    notes: Sequence[Note],
    span: Span,
    key: Key | None = None,
    chord: Chord | None = None,
    alone: bool = True,
) -> Figure:
    """The figure that these notes make over a span, as one part or hand.

    ``chord`` is what the chart says or both hands sound, if known; ``alone`` is false for one of two hands,
    whose root and fifth are not called a power chord while the other plays the third.
    """
    inside, started = _started(notes, span)
    if not started:
        return Figure(span, "", "Nothing new is struck here." if inside else "Nothing sounds here.", 0.0)
    pedal = _pedal(started, span)
    struck = strikes([note for note in started if note is not pedal])
    if all(len({note.pitch.midi for note in strike}) == 1 for strike in struck):
        later = leading_on(notes, inside, span)
        return line_figure([strike[0] for strike in struck], span, key, chord, pedal, later)
    found = chordal_figure(strikes(started), span, key, chord, alone)
    return found or Figure(span, "", "Single notes and chords are mixed without a plain pattern.", 0.3)


def _only_chord(chart: Chart | None, span: Span) -> Chord | None:
    chords = {at.chord for at in chart.within(span)} if chart is not None else set()
    return chords.pop() if len(chords) == 1 else None


def _of_both_hands(notes: Sequence[Note], span: Span, key: Key | None, written: Chord | None) -> Chord | None:
    """The chord that both hands play: the chart's, with more if they have more, or without a chart what sounds."""
    chords = {one.chord for one in sounding_over(notes, span, key, written)}
    sounding = chords.pop() if len(chords) == 1 else None
    if written is None or sounding is None:
        return written or sounding
    more = sounding.root == written.root and sounding.pcs > written.pcs
    return sounding if more else written


def _started(notes: Sequence[Note], span: Span) -> tuple[Sequence[Note], list[Note]]:
    """The notes that belong to a span, and those of them that are struck in it."""
    inside = belonging_to(notes, span)
    return inside, [note for note in inside if note.onset >= span.start - _EARLY]


def _line(notes: Sequence[Note], span: Span) -> Line:
    """The notes of a line of single notes, in order of time; empty where some are struck together."""
    struck = strikes(_started(notes, span)[1])
    return tuple(strike[0] for strike in struck) if all(len(strike) == 1 for strike in struck) else ()


def _pedal(notes: Sequence[Note], span: Span) -> Note | None:
    """A lowest note that is struck with another and held under the rest of the span."""
    lowest = min(notes, key=lambda note: note.pitch.midi)
    others = any(note is not lowest and note.onset == lowest.onset for note in notes)
    held = others and lowest.length >= span.length * _HELD
    return lowest if held and len(notes) > _FEWEST_OVER_PEDAL else None

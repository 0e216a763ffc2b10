"""Whether a part plays chords over each harmony, or a tune that only moves through it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from studio.music.chart import Chart
from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.place import Span
from studio.theory.parts.figures import figure_over
from studio.theory.parts.slices import InOrder, belonging_to, slices, strikes

Playing = Literal["", "chords", "broken chord", "line"]

_COMPLETE = 3  # different notes at once that make a chord
_STRUCK = ("block chords", "power chords", "bass and chords")
_VOICES = ("octaves", "parallel lines")


def playing(
    notes: Sequence[Note], span: Span, key: Key | None = None, written: Chord | None = None
) -> Playing:
    """How these notes go over one harmony; "" if none sounds.

    "chords" are three notes at once, or mostly two; "broken chord" a line that has only the notes of one chord and
    breaks it clearly; "line" is a tune, two in parallel, or a bass line.
    """
    inside = belonging_to(notes, span)
    if not inside:
        return ""
    if any(len(here.pcs) >= _COMPLETE for here in slices(inside, span)):
        return "chords"
    figure = figure_over(notes, span, key, written)
    if figure.kind in ("arpeggio", "broken chord"):
        pcs = {note.pitch.name.pc for note in inside}
        return "broken chord" if all(pcs <= chord.pcs for chord in figure.chords) else "line"
    if figure.kind in (*_STRUCK, *_VOICES):
        return "chords" if figure.kind in _STRUCK else "line"
    struck = strikes(inside)
    return "chords" if 2 * sum(len(strike) > 1 for strike in struck) >= len(struck) else "line"


def plays_chords(over: Sequence[Playing]) -> tuple[bool, ...]:
    """Whether a part plays chords over each harmony, by how it goes over all of them.

    A tune may break a chord now and then. Only a part that does so more often than not is heard to play chords there.
    """
    broken = over.count("broken chord") > over.count("line")
    return tuple(one == "chords" or (one == "broken chord" and broken) for one in over)


def carries_a_tune(notes: Sequence[Note], chart: Chart) -> bool:
    """Whether a part is a tune and no accompaniment: over most of the chords, its upper staff plays none.

    Without a chart it is one where fewer than half of its notes are struck together with others.
    """
    if not notes:
        return False
    first = min(note.staff for note in notes)
    upper = [note for note in notes if note.staff == first]
    ordered = InOrder(upper)
    over = [playing(ordered.near(at.span), at.span, None, at.chord) for at in chart.chords]
    if any(over):
        return 2 * sum(plays_chords(over)) < sum(one != "" for one in over)
    struck = strikes(upper)
    return 2 * sum(len(strike) > 1 for strike in struck) < len(struck)

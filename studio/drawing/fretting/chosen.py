"""Which fingering each chord of a stretch of song gets: the person's own, or else one that our search finds early
and that lies near those of its neighbours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.drawing.fretting.options import FretboardOptions, chord_shapes, read_frets
from studio.music.chord import Chord
from studio.music.pitch import NoteName
from studio.theory.fretboard.given import judge_shape
from studio.theory.fretboard.hand_positions import Wishes
from studio.theory.fretboard.named_tunings import read_tuning
from studio.theory.fretboard.near_shapes import shapes_together
from studio.theory.fretboard.search import FoundShape, find_shapes, why_no_shape
from studio.theory.fretboard.shape import Shape, read_shape
from studio.theory.fretboard.tuning import Tuning
from studio.theory.plain_english import listed
from studio.timeline.ask import Ask

HIGHEST = 12
"""The highest fret that a search tries unless the project asks for others."""

CHOICE = 5
"""Shapes of a chord among which the neighbouring chords choose."""

_MANY = 400
"""Shapes to look through for some that stay in the frets asked for."""


@dataclass(frozen=True)
class Heard:
    """A chord from one moment to another, in song quarters; None where none sounds."""

    chord: Chord | None
    start: Fraction
    end: Fraction


def tuning_of(options: FretboardOptions) -> Tuning:
    return read_tuning(options.tuning).with_capo(options.capo)


def chords_heard(ask: Ask) -> tuple[Heard, ...]:
    """The chords of the callout's stretch of song, cut to it; one that is written again is held."""
    span = ask.the_span()
    found: list[Heard] = []
    for at in ask.facts.song.chart.within(span):
        if found and found[-1].chord == at.chord and found[-1].end == at.start:
            found[-1] = Heard(at.chord, found[-1].start, at.end)
        else:
            found.append(Heard(at.chord, at.start, at.end))
    return tuple(found)


def chosen_shapes(options: FretboardOptions, ask: Ask, chords: Sequence[Chord]) -> dict[Chord, Shape]:
    """A fingering for each chord; `chords` are as they are heard. Refuses what is wrong or cannot be played."""
    tuning = tuning_of(options)
    distinct = list(dict.fromkeys(chords))
    given = chord_shapes(options.shapes)
    if options.shape is not None:
        if len(distinct) > 1:
            names = listed(chord.text for chord in distinct[:5])
            ask.refuse(
                "shape", f"these bars have {names}; write shapes: {{{distinct[0].text}: {options.shape}}}"
            )
        given = dict.fromkeys(distinct, options.shape)
    if strange := [chord for chord in given if chord not in distinct]:
        ask.refuse("shapes", f"{strange[0].text} is not in these bars; write only chords of the chart there")
    key = "shape" if options.shape is not None else "shapes"
    possible = {
        chord: (_own(given[chord], chord, tuning, key, options, ask),)
        if chord in given
        else _found(chord, tuning, options, ask)
        for chord in distinct
    }
    return shapes_together(chords, possible)


def _own(
    text: str, chord: Chord, tuning: Tuning, key: str, options: FretboardOptions, ask: Ask
) -> FoundShape:
    """The person's own fingering, which has to be the chord and within reach."""
    try:
        judged = judge_shape(read_shape(text, len(tuning.strings)), tuning, chord, reach=options.reach)
    except ValueError as problem:
        ask.refuse(key, str(problem))
    if not judged.right:
        ours = _search(chord, tuning, options)
        remedy = (
            f"{chord.text} is {ours[0].shape.text}, for one"
            if ours
            else "write another fingering or another chord"
        )
        ask.refuse(key, f"the shape {judged.complaint.rstrip('.')}; {remedy}")
    return FoundShape(judged.shape, 0.0, ())


def _found(chord: Chord, tuning: Tuning, options: FretboardOptions, ask: Ask) -> tuple[FoundShape, ...]:
    found = _search(chord, tuning, options)
    if not found:
        reason = why_no_shape(chord, tuning, _wishes(options))
        ask.refuse("frets" if options.frets else "kind", reason.rstrip("."))
    return found


def _search(chord: Chord, tuning: Tuning, options: FretboardOptions) -> tuple[FoundShape, ...]:
    """The most playable shapes in the frets that are asked for; () if there is none."""
    first = read_frets(options.frets)[0] if options.frets else 0
    found = find_shapes(chord, tuning, _wishes(options), most=_MANY if first else CHOICE)
    return tuple(one for one in found if min(one.shape.pressed, default=first) >= first)[:CHOICE]


def _wishes(options: FretboardOptions) -> Wishes:
    first, last = read_frets(options.frets) if options.frets else (0, HIGHEST)
    return Wishes(highest_fret=last, reach=options.reach, open_strings=options.open and first == 0)


def as_fingered(chord: Chord, capo: int) -> str:
    """What the hand plays under a capo: A with a capo on fret 2 is fingered as G; "" without a capo."""
    if not capo:
        return ""
    # Roots as guitarists name shapes, from E♭ to F♯ on the line of fifths.
    root = NoteName.from_fifths((chord.root.fifths - 7 * capo + 3) % 12 - 3)
    return chord.transposed(*chord.root.interval_to(root)).text

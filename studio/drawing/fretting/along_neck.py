"""Composing a neck: which stretch of it is shown, and the dots of a part, of chord shapes or of a scale on it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from studio.drawing.frame import CanvasSize
from studio.drawing.fretting.boxes import caption
from studio.drawing.fretting.chosen import chords_heard, chosen_shapes, tuning_of
from studio.drawing.fretting.dots import (
    Placed,
    State,
    line_states,
    placed_notes,
    scale_dots,
    scale_states,
    shape_states,
)
from studio.drawing.fretting.options import FretboardOptions, read_frets, read_scale
from studio.drawing.instruments.neck import Lit, Neck, NeckDot, least_width, neck_extent
from studio.drawing.lettering.type import plain
from studio.drawing.themes.theme import Theme
from studio.theory.fretboard.tuning import Tuning
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed

HIGHEST_FOR_LINES = 15
"""A line is played up to here unless the project asks for other frets."""

FEWEST, USUAL = 5, 12
"""Frets that are shown at least, and where there is room: an octave of the neck is recognised at once."""

NEAR_NUT = 4
"""Where the lowest fret is no higher, the nut is shown too."""

EASY = 1.3
"""More of the neck is shown only as long as its frets stay so many times as wide as they have to be."""


def compose_part(options: FretboardOptions, ask: Ask) -> Composed:
    """The notes of a part along the neck, lit as they sound, the next ones in rings."""
    tuning, part = tuning_of(options), options.part or ""
    notes = ask.notes(part)
    if not notes:
        ask.refuse("part", f"'{part}' has no notes in these bars")
    limits = read_frets(options.frets) if options.frets else (0 if options.open else 1, HIGHEST_FOR_LINES)
    placed = placed_notes(notes, tuning, limits, ask)
    states, visited = line_states(placed, options, ask)
    content = replace(_neck(_dots(states), tuning, options, ask), visited=visited)
    _check_height(content, options, ask)
    return _composed(content, states, _line_alt(part, placed, tuning))


def compose_shapes(options: FretboardOptions, ask: Ask) -> Composed:
    """The shape of each chord on the neck as it sounds, the next one in rings."""
    tuning, heard = tuning_of(options), chords_heard(ask)
    chords = [at.chord for at in heard if at.chord is not None]
    if not chords:
        ask.refuse("where", "no chords are written for these bars; write them under song.chords")
    shapes = chosen_shapes(options, ask, chords)
    states = shape_states(heard, shapes, tuning, options)
    said = ", ".join(f"{chord.text} as {shape.text}" for chord, shape in shapes.items())
    content = replace(_neck(_dots(states), tuning, options, ask), headed=True)
    _check_height(content, options, ask)
    alt = f"Chord shapes along the neck in {tuning}, frets from the low string to the high one: {said}."
    return _composed(content, states, alt)


def compose_scale(options: FretboardOptions, ask: Ask) -> Composed:
    """A scale along the neck; the tones of the chord that sounds are lit."""
    tuning = tuning_of(options)
    tonic, scale = read_scale(options.scale or "")
    first, last = read_frets(options.frets) if options.frets else (0 if options.open else 1, USUAL)
    while True:
        still = scale_dots(tuning, (first, last), options)
        content = _bare(still, (first, last), tuning, options, ask)
        if options.frets or last - first <= FEWEST or least_width(content, ask.theme) <= ask.room.width:
            break
        last -= 1  # as much of the neck as can be read
    heard = chords_heard(ask) if ask.span is not None else ()
    states = scale_states(heard, still, tuning)
    headed = any(look.chord is not None for _, _, look in states)
    words = f"{tonic} {(options.scale or '').split(maxsplit=1)[1]}"
    said = " · ".join(filter(None, (words, content.caption)))
    content = _fitting(replace(content, still=still, headed=headed, caption=said), options, ask)
    _check_height(content, options, ask)
    notes = " ".join(str(note) for note in scale.notes(tonic))
    alt = f"The notes of {words} ({notes}) on the neck from fret {first} to {last} in {tuning}"
    return _composed(
        content, states, f"{alt}; those of the chord that sounds are lit." if headed else f"{alt}."
    )


def _composed(content: Neck, states: tuple[State, ...], alt: str) -> Composed:
    still = next((look for _, _, look in states if any(dot.role == "now" for dot in look.dots)), Lit())
    return Composed(content, states, still, Lit(), alt)


def _dots(states: Iterable[State]) -> tuple[NeckDot, ...]:
    return tuple(dict.fromkeys(dot for _, _, look in states for dot in look.dots))


def _neck(dots: Sequence[NeckDot], tuning: Tuning, options: FretboardOptions, ask: Ask) -> Neck:
    """As much of the neck as the dots need, and more of it where there is room."""
    if options.frets:
        return _fitting(_bare(dots, read_frets(options.frets), tuning, options, ask), options, ask)
    fretted = [dot.fret for dot in dots if dot.fret]
    lowest, last = min(fretted, default=1), max(fretted, default=1)
    first = 0 if lowest <= NEAR_NUT or any(dot.fret == 0 for dot in dots) else lowest - 1
    last = max(last, first + FEWEST)
    content = _fitting(_bare(dots, (first, last), tuning, options, ask), options, ask)
    while last < USUAL:
        last += 1
        longer = _bare(dots, (first, last), tuning, options, ask)
        if least_width(longer, ask.theme) * EASY > ask.room.width:
            break
        content = longer
    return content


def _bare(
    dots: Iterable[NeckDot], frets: tuple[int, int], tuning: Tuning, options: FretboardOptions, ask: Ask
) -> Neck:
    theme: Theme = ask.theme
    words = {dot.label for dot in dots}
    return Neck(
        canvas=CanvasSize.of(ask.canvas),
        strings=tuple(str(string.name) for string in tuning.sounding),
        first=frets[0],
        last=frets[1],
        capo=tuning.capo,
        left_handed=options.hand == "left",
        caption=caption(tuning),
        longest=max(
            words,
            key=lambda word: (plain(word, theme.sizes.small, theme.weights.heavy).width, word),
            default="",
        ),
    )


def _fitting(content: Neck, options: FretboardOptions, ask: Ask) -> Neck:
    """The neck, if its words can be read in the room that there is; else a refusal that names the fix."""
    if least_width(content, ask.theme) > ask.room.width:
        count = content.last - max(content.first, 1) + 1
        ask.refuse(
            "frets" if options.frets else "slot" if options.slot else "kind",
            f"{count} frets are too many to read in this slot; write fewer frets, 'labels: none' or a wider slot",
        )
    return content


def _check_height(content: Neck, options: FretboardOptions, ask: Ask) -> None:
    """Refuse a neck whose strings would be too close to be told apart."""
    if neck_extent(content, ask.theme).least * content.canvas.unit > ask.room.height:
        ask.refuse(
            "slot" if options.slot else "kind",
            f"a neck of {len(content.strings)} strings is taller than its slot gives; choose another slot, or "
            "another place for the presenter",
        )


def _line_alt(part: str, placed: Sequence[Placed], tuning: Tuning) -> str:
    """The notes with their places; strings are counted from the high one, as players do."""
    count = len(tuning.strings)
    said = [f"{one.note.pitch} string {count - one.place.string} fret {one.place.fret}" for one in placed]
    more = f" and {len(said) - 16} more" if len(said) > 16 else ""
    return f"The notes of {part} along the neck in {tuning}: {', '.join(said[:16])}{more}."

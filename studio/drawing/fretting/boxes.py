"""Composing chord boxes: each chord of the stretch once, and which of them sounds when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from studio.drawing.frame import CanvasSize
from studio.drawing.fretting.chosen import Heard, as_fingered, chords_heard, chosen_shapes, tuning_of
from studio.drawing.fretting.options import FretboardOptions
from studio.drawing.instruments.box_grid import Boxes, Shown, boxes_extent, least_panel
from studio.drawing.instruments.chord_box import BoxLayout, ChordBox
from studio.drawing.instruments.growth import growth
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.otherwise import changes_said
from studio.music.chord import Chord
from studio.theory.fretboard.shape import Shape
from studio.theory.fretboard.tuning import Tuning
from studio.timeline.ask import Ask
from studio.timeline.kind import Composed

FEWEST_FRETS = 4
"""Frets that a box shows at least, as song books do."""

_TALLEST = {"lower": (52.0, 84.0)}
"""Units that boxes with words of the usual size ask for at most, and on a tall canvas; the other slots give all
they have."""


def compose_boxes(options: FretboardOptions, ask: Ask, slot: str) -> Composed:
    """A box for each chord that sounds. Refuses where there are no chords."""
    heard, tuning, canvas = chords_heard(ask), tuning_of(options), CanvasSize.of(ask.canvas)
    sounding = [at.chord for at in heard if at.chord is not None]
    chords = list(dict.fromkeys(sounding))
    if not chords:
        ask.refuse("where", "no chords are written for these bars; write them under song.chords")
    shapes = chosen_shapes(options, ask, sounding)
    rows = max(FEWEST_FRETS, *(shape.highest_fret - _lowest(shape) + 1 for shape in shapes.values()))
    boxes = tuple(_box(chord, shapes[chord], tuning, options) for chord in chords)
    layout = BoxLayout(
        canvas=canvas,
        strings=len(tuning.strings),
        rows=rows,
        left_handed=options.hand == "left",
        capo=tuning.capo > 0,
        under=options.labels in ("degrees", "notes"),
        fingered=tuning.capo > 0,
        fingers=options.labels in (None, "fingers"),
    )
    whole = ask.room.height / canvas.unit
    usual, tall = _TALLEST.get(slot, (whole, whole))
    tallest = min(whole, (tall if canvas.portrait else usual) * growth(ask.theme))
    content = Boxes(layout, boxes, caption(tuning), tallest)
    _check_room(content, options, ask)
    states = tuple(_states(heard, chords))
    still = next((look for _, _, look in states if look.now is not None), Shown())
    alt = _alt(chords, shapes, tuning, options) + changes_said(ask, lambda one: one.of_harmony)
    return Composed(content, states, still, Shown(), alt)


def _check_room(content: Boxes, options: FretboardOptions, ask: Ask) -> None:
    """Refuse boxes of which not even one has room, with what helps."""
    key, unit = "slot" if options.slot else "kind", content.canvas.unit

    def too_tall(boxes: Boxes) -> bool:
        return boxes_extent(boxes, ask.room.width, ask.theme).least * unit > ask.room.height

    if too_tall(content):
        bare = replace(content, layout=replace(content.layout, under=False))
        if content.layout.under and not too_tall(bare):
            ask.refuse("labels", "words under the strings have no room here; write 'labels: fingers'")
        ask.refuse(
            key,
            "these boxes are taller than their slot; choose another slot, or another place for the presenter",
        )
    if least_panel(content, ask.theme) > ask.room.width:
        ask.refuse(key, "these boxes are wider than their slot; choose a wider one")


def caption(tuning: Tuning) -> str:
    """What of the instrument has to be said: the capo, and a tuning that is not the guitar's usual one."""
    said = [] if tuning.name == "standard" else [tuning.name]
    return " · ".join([*said, *([f"capo {tuning.capo}"] if tuning.capo else [])])


def _lowest(shape: Shape) -> int:
    """The fret in a box's first row: 1 as long as the shape lies in the first frets."""
    return 1 if shape.highest_fret <= FEWEST_FRETS else shape.lowest_fret


def _box(chord: Chord, shape: Shape, tuning: Tuning, options: FretboardOptions) -> ChordBox:
    return ChordBox(
        symbol=chord_words(chord),
        frets=shape.frets,
        fingers=shape.fingers,
        barres=tuple((barre.fret, barre.first, barre.last) for barre in shape.barres),
        lowest=_lowest(shape),
        under=_under(chord, shape, tuning, options),
        fingered=as_fingered(chord, tuning.capo),
    )


def _under(chord: Chord, shape: Shape, tuning: Tuning, options: FretboardOptions) -> tuple[str, ...]:
    if options.labels == "notes":
        return tuple(str(pitch.name) if pitch else "" for pitch in shape.pitches(tuning, chord))
    if options.labels == "degrees":
        return degrees(chord, shape, tuning)
    return ()


def degrees(chord: Chord, shape: Shape, tuning: Tuning) -> tuple[str, ...]:
    """What each string's note is in the chord, "" for a silent one; a foreign bass by its name."""
    pitches = shape.pitches(tuning, chord)
    tones = shape.tones(tuning, chord)
    return tuple(
        tone.degree if tone else str(pitch.name) if pitch else ""
        for tone, pitch in zip(tones, pitches, strict=True)
    )


def _states(heard: Sequence[Heard], chords: Sequence[Chord]) -> list[tuple[Fraction, Fraction, Shown]]:
    numbers = {chord: number for number, chord in enumerate(chords)}
    found = []
    for place, at in enumerate(heard):
        now = None if at.chord is None else numbers[at.chord]
        following = next((one.chord for one in heard[place + 1 :] if one.chord not in (None, at.chord)), None)
        found.append((at.start, at.end, Shown(now, None if following is None else numbers[following])))
    return found


def _alt(
    chords: Sequence[Chord], shapes: dict[Chord, Shape], tuning: Tuning, options: FretboardOptions
) -> str:
    said = ", ".join(f"{chord.text} as {shapes[chord].text}" for chord in chords)
    turned = ", drawn for a left-handed player" if options.hand == "left" else ""
    return f"Chord boxes in {tuning}{turned}, frets from the low string to the high one: {said}."

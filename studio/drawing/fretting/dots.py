"""The dots of a neck: those of a line of notes as it is played, of chord shapes, and of a scale."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from studio.drawing.fretting.boxes import degrees
from studio.drawing.fretting.chosen import Heard
from studio.drawing.fretting.options import FretboardOptions, read_scale
from studio.drawing.instruments.neck import Lit, NeckDot, Role
from studio.drawing.lettering.reading_words import chord_words
from studio.drawing.sounding import sounding
from studio.music.chord import Chord
from studio.music.note import Note
from studio.music.pitch import NoteName
from studio.theory.fretboard.neck import Place, places_of_notes
from studio.theory.fretboard.position_path import play_line
from studio.theory.fretboard.shape import Shape
from studio.theory.fretboard.tuning import Tuning
from studio.theory.melody.scales import Scale
from studio.timeline.ask import Ask

State = tuple[Fraction, Fraction, Lit]
"""From one moment of the song to another, in quarters, and what is lit."""

FINGERS = 4


@dataclass(frozen=True)
class Placed:
    """A note of a part and where it is played, with the fret under the index finger."""

    note: Note
    place: Place
    hand: int


def placed_notes(
    notes: Sequence[Note], tuning: Tuning, frets: tuple[int, int], ask: Ask
) -> tuple[Placed, ...]:
    """Where each note of a part is played, so that the hand moves little. Refuses what the neck does not have."""
    struck: dict[Fraction, dict[int, Note]] = {}
    for note in notes:
        struck.setdefault(note.onset, {})[note.pitch.midi] = note
    onsets = sorted(struck)
    moments = [list(struck[at].values()) for at in onsets]
    played = play_line([[note.pitch for note in moment] for moment in moments], tuning, *frets)
    for at, moment in zip(onsets, played, strict=True):
        if moment.complaint:
            where = f"in bar {ask.time.place(at).bar}, {moment.complaint.rstrip('.')}"
            ask.refuse("part", f"{where}; choose a part for this instrument, another tuning or other frets")
    return tuple(
        Placed(note, place, moment.hand)
        for chord, moment in zip(moments, played, strict=True)
        for note, place in zip(chord, moment.places, strict=True)
        if place is not None
    )


def line_states(
    placed: Sequence[Placed], options: FretboardOptions, ask: Ask
) -> tuple[tuple[State, ...], tuple[tuple[int, int], ...]]:
    """What of a line is lit when, the notes that come next in rings; and every place that it visits."""
    span, label = ask.the_span(), _line_labels(placed, options, ask)
    edges = {span.start, span.end}
    edges |= {at for one in placed for at in (one.note.onset, one.note.end) if span.start < at < span.end}
    struck: dict[Fraction, list[Placed]] = {}
    for one in placed:
        struck.setdefault(one.note.onset, []).append(one)
    onsets, states = sorted(struck), []
    for start, end, now in sounding(placed, edges, lambda one: (one.note.onset, one.note.end)):
        after = bisect_right(onsets, start)
        held = {(one.place.string, one.place.fret) for one in now}
        coming = [
            one
            for one in (struck[onsets[after]] if after < len(onsets) else ())
            if (one.place.string, one.place.fret) not in held
        ]
        dots = (
            *(_dot(one.place, label[one], "next") for one in coming),
            *(_dot(one.place, label[one], "now") for one in now),
        )
        states.append((start, end, Lit(dots)))
    visited = tuple(dict.fromkeys((one.place.string, one.place.fret) for one in placed))
    return tuple(states), visited


def _line_labels(placed: Sequence[Placed], options: FretboardOptions, ask: Ask) -> dict[Placed, str]:
    match options.labels:
        case "none":
            return dict.fromkeys(placed, "")
        case "fingers":
            return {one: _finger(one) for one in placed}
        case "degrees":
            found: dict[Note, str] = {}
            for reading in ask.melody(options.part or ""):
                if reading.degree is not None:
                    found.setdefault(reading.note, reading.degree.label)
            return {one: found.get(one.note, "") for one in placed}
    return {one: str(one.note.pitch.name) for one in placed}


def _finger(one: Placed) -> str:
    return str(min(one.place.fret - one.hand + 1, FINGERS)) if one.place.fret else ""


def shape_states(
    heard: Sequence[Heard], shapes: dict[Chord, Shape], tuning: Tuning, options: FretboardOptions
) -> tuple[State, ...]:
    """The shape of each chord as it sounds, and in rings the next one where it differs."""
    states = []
    for number, at in enumerate(heard):
        following = next(
            (one.chord for one in heard[number + 1 :] if one.chord not in (None, at.chord)), None
        )
        now = shape_dots(at.chord, shapes, tuning, options, "now")
        held = {(dot.string, dot.fret) for dot in now}
        coming = shape_dots(following, shapes, tuning, options, "next")
        coming = tuple(dot for dot in coming if (dot.string, dot.fret) not in held and dot.fret)
        symbol = chord_words(at.chord) if at.chord is not None else None
        states.append((at.start, at.end, Lit((*coming, *now), symbol)))
    return tuple(states)


def shape_dots(
    chord: Chord | None, shapes: dict[Chord, Shape], tuning: Tuning, options: FretboardOptions, role: Role
) -> tuple[NeckDot, ...]:
    if chord is None:
        return ()
    shape = shapes[chord]
    pitches = shape.pitches(tuning, chord)
    match options.labels:
        case "none":
            labels: tuple[str, ...] = ("",) * len(pitches)
        case "notes":
            labels = tuple(str(pitch.name) if pitch else "" for pitch in pitches)
        case "fingers":
            labels = tuple(str(finger or "") for finger in shape.fingers or (0,) * len(pitches))
        case _:
            labels = degrees(chord, shape, tuning)
    return tuple(
        NeckDot(string, fret, label, role)
        for string, (fret, label) in enumerate(zip(shape.frets, labels, strict=True))
        if fret is not None
    )


def scale_dots(tuning: Tuning, frets: tuple[int, int], options: FretboardOptions) -> tuple[NeckDot, ...]:
    """Every place of a scale in these frets."""
    tonic, scale = read_scale(options.scale or "")
    labels = _scale_labels(tonic, scale, options)
    return tuple(
        NeckDot(
            place.string, place.fret, labels[place.pitch.name.pc], "scale", place.pitch.name.pc == tonic.pc
        )
        for place in places_of_notes(scale.notes(tonic), tuning, *frets)
        if options.open or place.fret
    )


def _scale_labels(tonic: NoteName, scale: Scale, options: FretboardOptions) -> dict[int, str]:
    notes = scale.notes(tonic)
    if options.labels == "notes":
        return {note.pc: str(note) for note in notes}
    if options.labels in ("none", "fingers"):
        return {note.pc: "" for note in notes}
    return {note.pc: degree for note, degree in zip(notes, scale.degrees, strict=True)}


def scale_states(heard: Sequence[Heard], still: Sequence[NeckDot], tuning: Tuning) -> tuple[State, ...]:
    """The tones of each chord, as far as the scale has them, lit while it sounds."""
    strings = tuning.midi
    states = []
    for at in heard:
        classes = at.chord.pcs if at.chord is not None else frozenset[int]()
        dots = tuple(
            replace(dot, role="now") for dot in still if (strings[dot.string] + dot.fret) % 12 in classes
        )
        states.append((at.start, at.end, Lit(dots, chord_words(at.chord) if at.chord is not None else None)))
    return tuple(states)


def _dot(place: Place, label: str, role: Role) -> NeckDot:
    return NeckDot(place.string, place.fret, label, role)

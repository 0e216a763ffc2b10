"""A person's own fingering, judged against the chord that it is meant to be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from studio.music.chord import Chord
from studio.music.pitch import NoteName, Pitch
from studio.theory.fretboard.fingering import grips, numbered
from studio.theory.fretboard.hand_positions import reach_at
from studio.theory.fretboard.needed_tones import needed_tones
from studio.theory.fretboard.playable import grip_points
from studio.theory.fretboard.shape import Shape
from studio.theory.fretboard.tuning import Tuning
from studio.theory.plain_english import listed

LONGER_REACH = 2
"""Frets that a person's own hand may cover beyond the usual reach: six in a row near the nut are a long hand's limit.
The number is ours."""


@dataclass(frozen=True, slots=True)
class GivenShape:
    """What a given shape sounds, and how that compares with the chord.

    ``missing`` are tones that the chord needs, ``left_out`` tones that may stay out (a fifth), ``foreign`` notes
    that are none of the chord's. ``inverted`` says that another tone than the chord's bass is lowest.
    ``complaint`` is one sentence if the shape is not the chord or no hand reaches it, "" if it is right.
    """

    shape: Shape
    pitches: tuple[Pitch | None, ...]
    missing: tuple[NoteName, ...]
    left_out: tuple[NoteName, ...]
    foreign: tuple[NoteName, ...]
    inverted: bool
    complaint: str

    @property
    def right(self) -> bool:
        """Whether the shape is the chord, and within reach."""
        return not self.complaint


def judge_shape(
    shape: Shape, tuning: Tuning, chord: Chord, rootless: bool = False, reach: int | None = None
) -> GivenShape:
    """A shape against a chord; ValueError if the shape has more or fewer strings than the tuning.

    ``reach`` is how many frets in a row the hand covers below the fifth fret, None for what is usual on the
    instrument; a person who knows the hand may go a little beyond it. A note after a slash has to be lowest. Without
    a slash an inversion is let pass, since players know why they leave the root to somebody else's bass, and is only
    said.

    >>> from studio.music.chord_reader import read_chord
    >>> from studio.theory.fretboard.named_tunings import STANDARD
    >>> from studio.theory.fretboard.shape import read_shape
    >>> judge_shape(read_shape("x02210"), STANDARD, read_chord("A")).complaint
    'x02210 is not A: C is foreign to it and C♯ is missing.'
    """
    pitches = shape.pitches(tuning, chord)
    sounding = {pitch.name.pc for pitch in pitches if pitch is not None}
    needed = needed_tones(chord, rootless)
    bass = shape.bass(tuning, chord)
    inverted = bass is not None and bass.name.pc != chord.lowest.pc
    lacking = [group for group in needed.groups if not group & sounding]
    missing = [_named(min(group), chord) for group in lacking]
    if chord.bass is not None and chord.bass.pc not in sounding and chord.bass not in missing:
        missing.insert(0, chord.bass)
    foreign = _once(pitch.name for pitch in pitches if pitch is not None and pitch.name.pc not in chord.pcs)
    return GivenShape(
        shape=with_fingers(shape),
        pitches=pitches,
        missing=tuple(missing),
        left_out=tuple(_named(pc, chord) for pc in sorted(needed.may_lack - sounding)),
        foreign=foreign,
        inverted=inverted,
        complaint=_complaint(shape, chord, missing, foreign, bass if inverted and chord.bass else None)
        or _out_of_reach(shape, reach or tuning.reach),
    )


def with_fingers(shape: Shape) -> Shape:
    """The shape with the easiest fingers, if it has none yet and four fingers can press it."""
    ways = grips(shape.frets)
    if shape.fingers or not ways:
        return shape
    easiest = min(ways, key=lambda way: sum(grip_points(way, len(shape.frets))))
    return Shape(shape.frets, numbered(easiest, shape.frets))


def _out_of_reach(shape: Shape, reach: int) -> str:
    pressed = [fret for fret in shape.frets if fret]
    low, high = min(pressed, default=0), max(pressed, default=0)
    if high - low < reach_at(low, reach) + LONGER_REACH:
        return ""
    return f"{shape.text} is beyond a hand's reach: it spans {high - low + 1} frets, from {low} to {high}."


def _named(pc: int, chord: Chord) -> NoteName:
    return next(note for note in chord.notes() if note.pc == pc)


def _once(notes: Iterable[NoteName]) -> tuple[NoteName, ...]:
    return tuple(dict.fromkeys(notes))


def _complaint(
    shape: Shape, chord: Chord, missing: Iterable[NoteName], foreign: Iterable[NoteName], bass: Pitch | None
) -> str:
    wrong = []
    if notes := [str(note) for note in foreign]:
        wrong.append(f"{listed(notes)} {'is' if len(notes) == 1 else 'are'} foreign to it")
    if notes := [str(note) for note in missing]:
        wrong.append(f"{listed(notes)} {'is' if len(notes) == 1 else 'are'} missing")
    if bass is not None and not wrong:
        wrong.append(f"{bass.name} is its lowest note, where {chord.lowest} should be")
    return f"{shape.text} is not {chord.text}: {listed(wrong)}." if wrong else ""

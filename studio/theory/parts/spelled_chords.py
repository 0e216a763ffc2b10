"""Recognising the chord that a line of single notes spells: arpeggios and broken chords.

A tune leaps among chord tones too, so a line is named as a chord only if it plays one as players break chords: in
even values and in the order of the tones, or round and round. Against the chart it must be a whole chord besides:
F E C over C is a tune, A C♯ E G over A is A7. A broken chord in the order lowest, highest, middle, highest is an
Alberti bass, as dictionaries of music have it (from memory). The other names are common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.melody.degree import degree_over
from studio.theory.parts.bass_and_name import name_over_bass
from studio.theory.parts.figure import Direction, Figure, FigureKind
from studio.theory.parts.ornaments import is_step, passing_words

_FIFTH = 7  # half steps
_FEWEST_TONES = 3  # notes that make an arpeggio
_MOST_STEPS = 1 / 4  # the share of steps that a line of chord tones may have
_MOST_PASSING = 1 / 4  # the share of its notes that may pass
_LEAST_SURE = 0.4  # a chord less sure than this is not worth naming from a line alone
_PASSING_DOUBT = 0.1
_MOST_BROKEN = 4  # different notes of a chord that is broken once in an order of its own; a tune has more
_ONCE = 0.7  # what is left of the sureness then, since the pattern never comes again
_UNEVEN = Fraction(3)  # how many times longer than its shortest value the longest value of a line may be
_UNEVEN_AGAINST = Fraction(2)  # the same of a line that plays another chord than the chart's


def spelled_chord(
    notes: Sequence[Note],
    passing: frozenset[Note],
    span: Span,
    key: Key | None,
    chord: Chord | None,
    pedal: Note | None,
) -> Figure | None:
    """The arpeggio or broken chord of single notes of which some only pass; ``chord`` is the chart's, if any."""
    kept = [note for note in notes if note not in passing]
    tones = _without_repeats(kept)
    if len(kept) < _FEWEST_TONES or len(tones) < 2 or len(passing) > _MOST_PASSING * len(notes):
        return None
    low = [pedal.pitch] if pedal is not None else []
    line = [*low, *(note.pitch for note in tones)]
    found, sureness, runner_up = _chord_of(line, key, chord)
    if found is None or _steps(tones, found, found == chord) > _MOST_STEPS * (len(tones) - 1):
        return None
    length, times = smallest_unit([note.pitch.midi for note in tones])
    unit = [note.pitch for note in tones[:length]]
    kind, direction, name = _shape([pitch.midi for pitch in unit])
    if chord is not None and found != chord and not _plays_another(tones, line, found, chord, times):
        return None
    unevenness = _unevenness(kept)
    if unevenness > (_UNEVEN if found == chord or chord is None else _UNEVEN_AGAINST):
        return None
    if times == 1 and not name and (kind == "broken chord" or len(set(line)) < _FEWEST_TONES):
        if len(set(line)) < _FEWEST_TONES or len(_pcs(line)) > _MOST_BROKEN or unevenness > 1:
            return None
        sureness *= _ONCE
    if _pcs(line) == {found.root.pc, (found.root.pc + _FIFTH) % 12}:
        return _root_and_fifth(span, unit, found, times, round(sureness, 2))
    names = tuple(dict.fromkeys(note.pitch.name for note in notes if note in passing))
    said = f"; {passing_words(names)}" if names else ""
    return Figure(
        span,
        kind,
        f"The notes of {found.text} one after another{said}.",
        round(max(0.05, sureness - _PASSING_DOUBT * bool(passing)), 2),
        chords=(found,),
        order=tuple(degrees_in_order(unit, found)),
        direction=direction,
        times=times,
        name=name,
        runner_up=runner_up,
    )


def _root_and_fifth(span: Span, unit: Sequence[Pitch], chord: Chord, times: int, sureness: float) -> Figure:
    """Two notes that say nothing of the chord's third are no arpeggio of it."""
    fifth = next(pitch.name for pitch in unit if pitch.name.pc != chord.root.pc)
    return Figure(
        span,
        "broken chord",
        f"{chord.root} and {fifth} by turns, without a third.",
        sureness,
        chords=(Chord.of(chord.root, "5"),),
        order=tuple(degrees_in_order(unit, chord)),
        times=times,
        name="root and fifth",
    )


def _without_repeats(notes: Sequence[Note]) -> list[Note]:
    """The notes without those that only strike the pitch before once more."""
    return [note for place, note in enumerate(notes) if place == 0 or note.pitch != notes[place - 1].pitch]


def _pcs(line: Sequence[Pitch]) -> set[int]:
    return {pitch.name.pc for pitch in line}


def _steps(tones: Sequence[Note], chord: Chord, written: bool) -> int:
    """How many moves are steps, other than between a root and its seventh.

    If the chord is ``written`` in the chart and all of it is played, those inside it do not count: C D E in Cadd9.
    """
    root = chord.root.pc
    ends = {frozenset((root, (root + distance) % 12)) for distance in (9, 10, 11)}
    if written and {note.pitch.name.pc for note in tones} >= chord.pcs:
        ends |= {frozenset((one, two)) for one in chord.pcs for two in chord.pcs}
    moves = (
        frozenset((one.pitch.name.pc, two.pitch.name.pc)) for one, two in pairwise(tones) if is_step(one, two)
    )
    return sum(move not in ends for move in moves)


def _chord_of(line: Sequence[Pitch], key: Key | None, chord: Chord | None) -> tuple[Chord | None, float, str]:
    """The chord that a line spells: the chart's, if it has no other notes, or what its notes are called.

    A line that does not start on its lowest note has no bass: C G E is a C arpeggio, whatever comes last.
    """
    if chord is not None and len(_pcs(line)) > 1 and _pcs(line) <= chord.pcs:
        return chord, 0.98, ""
    named = name_over_bass(tuple(sorted(set(line), key=lambda pitch: (pitch.midi, pitch.height))), key)
    if named is None or named.chord is None or named.sureness < _LEAST_SURE or "no3" in named.chord.changes:
        return None, 0.0, ""
    found = named.chord
    if found.bass_tone is not None and line[0].midi > min(pitch.midi for pitch in line):
        found = replace(found, bass=None)
    return found, named.sureness, named.runner_up


def _plays_another(
    tones: Sequence[Note], line: Sequence[Pitch], found: Chord, chord: Chord, times: int
) -> bool:
    """Whether a line plays all of another chord than the chart's, as chords are broken.

    It may be the chart's with more, go round and round, or follow the order of its tones.
    """
    if not replace(found, bass=None).pcs <= _pcs(line):
        return False
    third = next(
        (note for note, tone in zip(chord.notes(), chord.tones, strict=False) if tone.number == 3), None
    )
    extends = found.root == chord.root and (third is None or third in found.notes())
    return extends or times > 1 or _in_order([note.pitch for note in tones], found)


def _in_order(pitches: Sequence[Pitch], chord: Chord) -> bool:
    """Whether each note goes on to the next tone of the chord, up or down, without leaving one out."""
    pcs = chord.pcs
    return all(
        not any(between % 12 in pcs for between in range(min(one, two) + 1, max(one, two)))
        for one, two in pairwise(pitch.midi for pitch in pitches)
    )


def _unevenness(notes: Sequence[Note]) -> Fraction:
    """How many times longer the longest value of a line is than the shortest, from onset to onset."""
    gaps = [two.onset - one.onset for one, two in pairwise(notes) if two.onset > one.onset]
    return max(gaps) / min(gaps) if gaps else Fraction(1)


def degrees_in_order(pitches: Sequence[Pitch], chord: Chord) -> list[str]:
    """The degrees of pitches over a chord, as players say them: the third is 3 in every octave, an added ninth 9.

    A C♯ E A over A are 1 3 5 1; D A E F♯ over Dadd9 are 1 5 9 3.
    """
    return [degree_over(pitch.name, chord).label for pitch in pitches]


def smallest_unit(heights: Sequence[int]) -> tuple[int, int]:
    """How many notes the smallest repeating unit has and how often it comes, the last one perhaps cut short.

    A figure that never repeats is one unit.
    """
    for length in range(2, len(heights) // 2 + 1):
        if all(heights[place] == heights[place - length] for place in range(length, len(heights))):
            return length, len(heights) // length
    return len(heights), 1


def _shape(heights: Sequence[int]) -> tuple[FigureKind, Direction, str]:
    """Arpeggios go one way, or turn once; other orders are broken chords."""
    if len(heights) == 4 and heights[1] == heights[3] > heights[2] > heights[0]:
        return "broken chord", "", "Alberti bass"
    way = direction([two - one for one, two in pairwise(heights)])
    if way and len(set(heights)) > 2:
        return "arpeggio", way, ""
    return "broken chord", "", ""


def direction(moves: Sequence[int]) -> Direction:
    """Which way a line goes, by its moves in half steps; "" if it turns more than once or stands still."""
    ways = [move > 0 for move in moves if move]
    turns = sum(one != two for one, two in pairwise(ways))
    if not ways or turns > 1 or 0 in moves:
        return ""
    if turns == 0:
        return "rising" if ways[0] else "falling"
    return "rising and falling" if ways[0] else "falling and rising"

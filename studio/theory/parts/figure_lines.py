"""Recognising what a line of single notes does: spell a chord, run along a scale, walk, or repeat a note.

A broken chord in the order lowest, highest, middle, highest is an Alberti bass, as dictionaries of music have
it (from memory). The other names are common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from studio.music.chord import Chord
from studio.music.key import Key
from studio.music.note import Note
from studio.music.pitch import Pitch
from studio.music.place import Span
from studio.theory.melody.degree import degree_over
from studio.theory.parts.bass_and_name import name_over_bass
from studio.theory.parts.figure import Direction, Figure, FigureKind
from studio.theory.parts.ornaments import is_step, ornaments, passing_words

_FEWEST_TONES, _FEWEST_STEPS = 3, 4  # notes that make an arpeggio, and a run or a walk
_MOST_STEPS = 1 / 4  # the share of steps that a line of chord tones may have
_MOST_PASSING = 1 / 4  # the share of its notes that may pass
_BASS_BELOW = 60  # MIDI number of middle C
_LEAST_SURE = 0.4  # a chord less sure than this is not worth naming from a line alone
_PASSING_DOUBT = 0.1
_MOST_BROKEN = 4  # different notes of a chord that is broken once in an order of its own; a tune has more
_ONCE = 0.7  # what is left of the sureness then, since the pattern never comes again


def line_figure(
    notes: Sequence[Note],
    span: Span,
    key: Key | None,
    chord: Chord | None,
    pedal: Note | None = None,
    later: Sequence[Note] = (),
) -> Figure:
    """The figure of single notes in order of time.

    ``pedal`` is a bass note that is held under them; ``later`` are the notes of what comes next.
    """
    passing = ornaments(notes, span, later, chord)
    plain = frozenset[Note]()
    return (
        _repeated(notes, span)
        or _broken_octaves(notes, span)
        or _run(notes, span)
        or (None if passing else _spelled_chord(notes, plain, span, key, chord, pedal))
        or _walk(notes, span)
        or _spelled_chord(notes, passing, span, key, chord, pedal)
        or (_spelled_chord(notes, plain, span, key, chord, pedal) if chord is None else None)
        or Figure(span, "line", "A line of single notes that spells no one chord.", 0.5)
    )


def _repeated(notes: Sequence[Note], span: Span) -> Figure | None:
    if len({note.pitch.midi for note in notes}) > 1:
        return None
    name = notes[0].pitch.name
    if len(notes) == 1:
        return Figure(span, "line", f"One note, {name}.", 1.0)
    return Figure(span, "repeated note", f"{name} is struck {len(notes)} times.", 1.0, times=len(notes))


def _broken_octaves(notes: Sequence[Note], span: Span) -> Figure | None:
    if len({note.pitch.name.pc for note in notes}) > 1:
        return None
    reason = f"{notes[0].pitch.name} leaps by octaves."
    return Figure(span, "octaves", reason, 0.95, times=len(notes), name="broken octaves")


def _run(notes: Sequence[Note], span: Span) -> Figure | None:
    """Steps in one direction; half steps all the way are a chromatic run."""
    moves = [two.pitch.midi - one.pitch.midi for one, two in pairwise(notes)]
    direction = _direction(moves)
    if len(notes) < _FEWEST_STEPS or direction not in ("rising", "falling"):
        return None
    if not all(abs(move) <= 2 for move in moves):
        return None
    chromatic = all(abs(move) == 1 for move in moves)
    way = "up" if direction == "rising" else "down"
    reason = f"It goes {way} by {'half steps' if chromatic else 'step'} from {notes[0].pitch.name}"
    return Figure(
        *(span, "scale run", f"{reason} to {notes[-1].pitch.name}.", 0.95),
        direction=direction,
        name="chromatic" if chromatic else "",
    )


def _spelled_chord(
    notes: Sequence[Note],
    passing: frozenset[Note],
    span: Span,
    key: Key | None,
    chord: Chord | None,
    pedal: Note | None,
) -> Figure | None:
    kept = [note for note in notes if note not in passing]
    tones = _without_repeats(kept)
    if len(kept) < _FEWEST_TONES or len(tones) < 2 or len(passing) > _MOST_PASSING * len(notes):
        return None
    low = [pedal.pitch] if pedal is not None else []
    found, sureness, runner_up = _chord_of([*low, *(note.pitch for note in tones)], key, chord)
    if found is None or _steps(tones, found) > _MOST_STEPS * (len(tones) - 1):
        return None
    length, times = smallest_unit([note.pitch.midi for note in tones])
    unit = [note.pitch for note in tones[:length]]
    kind, direction, name = _shape([pitch.midi for pitch in unit])
    if kind == "broken chord" and times == 1 and not name:
        if len({note.pitch.name.pc for note in tones}) > _MOST_BROKEN:
            return None
        sureness *= _ONCE
    names = tuple(dict.fromkeys(note.pitch.name for note in notes if note in passing))
    said = f"; {passing_words(names)}" if names else ""
    return Figure(
        *(span, kind, f"The notes of {found.text} one after another{said}."),
        round(max(0.05, sureness - _PASSING_DOUBT * bool(passing)), 2),
        chords=(found,),
        order=tuple(degrees_in_order(unit, found)),
        direction=direction,
        times=times,
        name=name,
        runner_up=runner_up,
    )


def _without_repeats(notes: Sequence[Note]) -> list[Note]:
    """The notes without those that only strike the pitch before once more."""
    return [note for place, note in enumerate(notes) if place == 0 or note.pitch != notes[place - 1].pitch]


def _steps(tones: Sequence[Note], chord: Chord) -> int:
    """How many moves are steps, other than between a root and its seventh."""
    ends = {frozenset((chord.root.pc, (chord.root.pc + distance) % 12)) for distance in (9, 10, 11)}
    moves = (
        frozenset((one.pitch.name.pc, two.pitch.name.pc)) for one, two in pairwise(tones) if is_step(one, two)
    )
    return sum(move not in ends for move in moves)


def _chord_of(line: Sequence[Pitch], key: Key | None, chord: Chord | None) -> tuple[Chord | None, float, str]:
    """The chord that a line spells: the chart's, if it has no other notes, or what its notes are called.

    A line that does not start on its lowest note has no bass: C G E is a C arpeggio, whatever comes last.
    """
    pcs = {pitch.name.pc for pitch in line}
    if chord is not None and len(pcs) > 1 and pcs <= chord.pcs:
        return chord, 0.98, ""
    named = name_over_bass(tuple(sorted(set(line), key=lambda pitch: (pitch.midi, pitch.height))), key)
    if named is None or named.chord is None or named.sureness < _LEAST_SURE:
        return None, 0.0, ""
    found = named.chord
    if found.bass_tone is not None and line[0].midi > min(pitch.midi for pitch in line):
        found = replace(found, bass=None)
    return found, named.sureness, named.runner_up


def degrees_in_order(pitches: Sequence[Pitch], chord: Chord) -> list[str]:
    """The degrees of pitches over a chord, counted on past the octave from the root at or below the lowest.

    A C♯ E A over A are 1 3 5 8; E A C♯ in rising order are 5 8 10.
    """
    lowest = min(pitch.midi for pitch in pitches)
    root = lowest - (lowest - chord.root.pc) % 12
    found = []
    for pitch in pitches:
        degree = degree_over(pitch.name, chord)
        number = degree.label.lstrip("♭♯")
        sign = degree.label[: len(degree.label) - len(number)]
        octave = (pitch.midi - root) // 12
        found.append(f"{sign}{(int(number) - 1) % 7 + 1 + 7 * octave}")
    return found


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
    direction = _direction([two - one for one, two in pairwise(heights)])
    if direction and len(set(heights)) > 2:
        return "arpeggio", direction, ""
    return "broken chord", "", ""


def _direction(moves: Sequence[int]) -> Direction:
    ways = [move > 0 for move in moves if move]
    turns = sum(one != two for one, two in pairwise(ways))
    if not ways or turns > 1 or 0 in moves:
        return ""
    if turns == 0:
        return "rising" if ways[0] else "falling"
    return "rising and falling" if ways[0] else "falling and rising"


def _walk(notes: Sequence[Note], span: Span) -> Figure | None:
    """A bass in even quarter notes, never the same twice running, a third of its moves steps or more."""
    lengths = {two.onset - one.onset for one, two in pairwise(notes)}
    moves = [two.pitch.midi - one.pitch.midi for one, two in pairwise(notes)]
    low = all(note.pitch.midi < _BASS_BELOW for note in notes)
    if len(notes) < _FEWEST_STEPS or lengths != {1} or 0 in moves or not low:
        return None
    if 3 * sum(abs(move) <= 2 for move in moves) < len(moves):
        return None
    reason = f"Even quarter notes in the bass from {notes[0].pitch.name} to {notes[-1].pitch.name}."
    return Figure(span, "walking line", reason, 0.8)

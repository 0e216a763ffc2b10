"""Line clichés and descending basses: one voice that walks by step while a triad holds.

A line cliché is a voice that moves one way by step, a new note with each chord, while the rest of one triad
sounds in every chord: Am AmMaj7 Am7 Am6 has A–G♯–G–F♯ inside Am; C Caug C6 C7 has G–G♯–A–B♭. The root stays;
only the last chord may have another, as D9 or F♯m7♭5 in place of Am6, and then the line goes by half steps.
Three notes make one; the turns of a suspended chord are none (common practice).

A descending bass is four or more bass notes down by step. It is a lament bass when it goes from the tonic to
the dominant by 1–♭7–♭6–5, plain or filled in by half steps (Open Music Theory, "Classical schemas (in a pop
context)").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Literal

from studio.music.chord import Chord
from studio.music.pitch import NoteName
from studio.music.place import Span
from studio.theory.harmony.reading import Reading
from studio.theory.progression.harmonies import plain_symbol
from studio.theory.progression.stretches import Sound, span_of, stretches

LineKind = Literal["line cliché", "descending bass", "lament bass", "chromatic lament bass"]

_FEWEST, _NOTES = 3, 4
_LAMENTS: dict[tuple[int, ...], LineKind] = {
    (0, 10, 8, 7): "lament bass",
    (0, 11, 10, 9, 8, 7): "chromatic lament bass",
    (0, 11, 10, 8, 7): "chromatic lament bass",
    (0, 10, 9, 8, 7): "chromatic lament bass",
}


@dataclass(frozen=True, slots=True)
class Line:
    """A line through neighbouring chords. ``notes`` has one for each chord; ``inside`` is the harmony that
    holds ("Am"), "" where the chords change; ``chromatic`` is true when it moves by half steps throughout.
    """

    kind: LineKind
    notes: tuple[NoteName, ...]
    span: Span
    inside: str
    chromatic: bool
    reason: str
    sureness: float
    runner_up: str = ""


def find_lines(readings: Sequence[Reading]) -> tuple[Line, ...]:
    """The clichés and descending basses of a progression in their order; N.C. ends one.

    Where a line cliché and a descending bass are the same notes, the longer is given, or else the cliché.
    """
    found: list[Line] = []
    for stretch in stretches(readings):
        inner = _cliches(stretch)
        lower = [line for line in _basses(stretch) if not any(_is_part(line, other) for other in inner)]
        found += lower + [line for line in inner if not any(_is_part(line, other) for other in lower)]
    return tuple(sorted(found, key=lambda line: (line.span.start, -line.span.length)))


def _is_part(line: Line, whole: Line) -> bool:
    """Whether a line is no more than another one, or than part of it."""
    inside = whole.span.start <= line.span.start and line.span.end <= whole.span.end
    return inside and {note.pc for note in line.notes} <= {note.pc for note in whole.notes}


def _cliches(stretch: Sequence[Sound]) -> list[Line]:
    chords = [sound.chord for sound in stretch]
    found, start = [], 0
    while start < len(chords):
        lines = [
            line
            for note in chords[start].notes()
            for direction in (-1, 1)
            if _is_cliche(line := _walk(chords, start, note, direction), chords[start:])
        ]
        best = max(lines, key=len, default=None)
        if best is None:
            start += 1
            continue
        found.append(_cliche(stretch[start : start + len(best)], best))
        start += len(best) - 1
    return found


def _walk(chords: Sequence[Chord], start: int, note: NoteName, direction: int) -> tuple[NoteName, ...]:
    """The longest line from a note of the chord at ``start``, one new note for each chord, all moving one way."""
    line, held = [note], _triad(chords[start]) - {note.pc}
    for before, chord in pairwise(chords[start:]):
        new = [
            other
            for other in chord.notes()
            if (other.pc - line[-1].pc) * direction % 12 in (1, 2) and other.pc not in before.pcs
        ]
        if not new or not held <= chord.pcs or before.root.pc != chords[start].root.pc:
            break
        line.append(min(new, key=lambda other: (other.pc - line[-1].pc) * direction % 12))
    return tuple(line)


def _triad(chord: Chord) -> frozenset[int]:
    """Pitch classes of its root, third and fifth."""
    return frozenset(
        (chord.root.pc + tone.semitones) % 12 for tone in chord.tones if tone.number in (1, 3, 5)
    )


def _is_cliche(line: Sequence[NoteName], chords: Sequence[Chord]) -> bool:
    """Whether a line is long enough for what it walks in, and the rest of a triad is there to hold."""
    under = chords[: len(line)]
    if len(line) < _FEWEST or under[0].triad not in ("major", "minor"):
        return False
    one_root = under[-1].root.pc == under[0].root.pc
    return _is_chromatic(line) or (one_root and all(chord.triad != "suspended" for chord in under))


def _cliche(stretch: Sequence[Sound], line: tuple[NoteName, ...]) -> Line:
    inside, chromatic = plain_symbol(stretch[0].chord), _is_chromatic(line)
    steps = "half steps" if chromatic else "steps"
    way = "down" if (line[1].pc - line[0].pc) % 12 > 6 else "up"
    reason = f"{_dashed(line)} moves {way} by {steps} while the rest of {inside} holds."
    one_root = len({sound.chord.root.pc for sound in stretch}) == 1
    sureness = (0.95 if chromatic else 0.8) * (1.0 if one_root else 0.85)
    return Line("line cliché", line, span_of(stretch), inside, chromatic, reason, round(sureness, 2))


def _basses(stretch: Sequence[Sound]) -> list[Line]:
    """Each longest descent of the bass by step, four notes or more."""
    runs = [list(run) for _, run in groupby(stretch, key=lambda sound: sound.chord.lowest.pc)]
    found, start = [], 0
    while start < len(runs):
        end = start + 1
        while end < len(runs) and _steps_down(_bass(runs[end - 1]), _bass(runs[end])):
            end += 1
        if end - start >= _NOTES:
            found += _bass_line(runs[start:end])
        start = max(end - 1, start + 1)
    return found


def _bass_line(runs: Sequence[list[Sound]]) -> list[Line]:
    """The line of a descent, whose every note lies under one or more chords; none if it is the chords' own roots."""
    notes = [_bass(run) for run in runs]
    degrees = [runs[0][0].key.above(note) for note in notes]
    kind: LineKind = "descending bass"
    for pattern, name in _LAMENTS.items():
        if tuple(degrees[: len(pattern)]) == pattern and len(degrees) <= len(pattern) + 1:
            kind, notes = name, notes[: len(pattern)]
            break
    if kind == "descending bass" and all(run[0].chord.lowest == run[0].chord.root for run in runs):
        return []
    members = [sound for run in runs[: len(notes)] for sound in run]
    one = len({sound.chord.root.pc for sound in members}) == 1
    inside, chromatic = plain_symbol(members[0].chord) if one else "", _is_chromatic(notes)
    under = f"under {inside}" if one else "while the chords change"
    reason = f"The bass goes down by {'half steps' if chromatic else 'step'}, {_dashed(notes)}, {under}."
    return [Line(kind, tuple(notes), span_of(members), inside, chromatic, reason, 0.9)]


def _bass(run: Sequence[Sound]) -> NoteName:
    return run[0].chord.lowest


def _steps_down(one: NoteName, two: NoteName) -> bool:
    return (one.pc - two.pc) % 12 in (1, 2)


def _is_chromatic(line: Sequence[NoteName]) -> bool:
    return all((two.pc - one.pc) % 12 in (1, 11) for one, two in pairwise(line))


def _dashed(line: Sequence[NoteName]) -> str:
    return "–".join(map(str, line))

"""Line clichés and descending basses: one voice that walks by step while the harmony holds, or seems to.

A line cliché is a voice that moves one way by half or whole steps, a new note with each chord, while at least
two other notes belong to every chord: Am AmMaj7 Am7 Am6 has A–G♯–G–F♯ inside Am; C Caug C6 C7 has G–G♯–A–B♭.
Three notes make one if they are a half step apart each time or the root stays (C Cmaj7 C6), four otherwise;
the turns of a suspended chord are none (common practice).

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
from studio.theory.progression.harmonies import above, bass_of, chord_of, plain_symbol

LineKind = Literal["line cliché", "descending bass", "lament bass", "chromatic lament bass"]

_HELD, _FEWEST, _NOTES = 2, 3, 4
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
    for silent, sounding in groupby(readings, key=lambda reading: reading.at.chord is None):
        if silent:
            continue
        stretch = [list(group) for _, group in groupby(sounding, key=chord_of)]
        inner = _cliches(stretch)
        lower = [line for line in _basses(stretch) if not any(_is_part(line, other) for other in inner)]
        found += lower + [line for line in inner if not any(_is_part(line, other) for other in lower)]
    return tuple(sorted(found, key=lambda line: (line.span.start, -line.span.length)))


def _is_part(line: Line, whole: Line) -> bool:
    """Whether a line is no more than another one, or than part of it."""
    inside = whole.span.start <= line.span.start and line.span.end <= whole.span.end
    return inside and {note.pc for note in line.notes} <= {note.pc for note in whole.notes}


def _cliches(stretch: Sequence[list[Reading]]) -> list[Line]:
    chords = [chord_of(group[0]) for group in stretch]
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
    line, held = [note], chords[start].pcs
    for before, chord in pairwise(chords[start:]):
        new = [
            other
            for other in chord.notes()
            if (other.pc - line[-1].pc) * direction % 12 in (1, 2) and other.pc not in before.pcs
        ]
        held = held & chord.pcs
        if not new or len(held) < _HELD:
            break
        line.append(min(new, key=lambda other: (other.pc - line[-1].pc) * direction % 12))
    return tuple(line)


def _is_cliche(line: Sequence[NoteName], chords: Sequence[Chord]) -> bool:
    """Whether a line is long enough for what it walks in, and two notes that are not of it hold throughout."""
    if len(line) < _FEWEST:
        return False
    under = chords[: len(line)]
    held = frozenset.intersection(*(chord.pcs for chord in under)) - {note.pc for note in line[1:]}
    one_root = len({chord.root.pc for chord in under}) == 1 and all(
        chord.triad != "suspended" for chord in under
    )
    return len(held) >= _HELD and (len(line) >= _NOTES or _is_chromatic(line) or one_root)


def _cliche(stretch: Sequence[list[Reading]], line: tuple[NoteName, ...]) -> Line:
    chord = chord_of(stretch[0][0])
    inside, chromatic = plain_symbol(chord), _is_chromatic(line)
    steps = "half steps" if chromatic else "steps"
    way = "down" if (line[1].pc - line[0].pc) % 12 > 6 else "up"
    reason = f"{_dashed(line)} moves {way} by {steps} while the rest of {inside} holds."
    one_root = len({chord_of(group[0]).root.pc for group in stretch}) == 1
    sureness = (0.95 if chromatic else 0.8) * (1.0 if one_root else 0.85)
    return Line("line cliché", line, _span(stretch), inside, chromatic, reason, round(sureness, 2))


def _basses(stretch: Sequence[list[Reading]]) -> list[Line]:
    """Each longest descent of the bass by step, four notes or more."""
    groups = [list(run) for _, run in groupby(stretch, key=lambda group: bass_of(chord_of(group[0])).pc)]
    found, start = [], 0
    while start < len(groups):
        end = start + 1
        while end < len(groups) and _steps_down(_bass(groups[end - 1]), _bass(groups[end])):
            end += 1
        if end - start >= _NOTES:
            found += _bass_line(groups[start:end])
        start = max(end - 1, start + 1)
    return found


def _bass_line(groups: Sequence[list[list[Reading]]]) -> list[Line]:
    key = groups[0][0][0].key
    notes = [_bass(group) for group in groups]
    degrees = [above(note, key) for note in notes]
    kind: LineKind = "descending bass"
    for pattern, name in _LAMENTS.items():
        if tuple(degrees[: len(pattern)]) == pattern and len(degrees) <= len(pattern) + 1:
            kind, notes = name, notes[: len(pattern)]
            break
    roots = (chord_of(run[0][0]).root for run in groups)
    if kind == "descending bass" and all(bass == root for bass, root in zip(notes, roots, strict=False)):
        return []
    members = [group for run in groups[: len(notes)] for group in run]
    chords = [chord_of(group[0]) for group in members]
    one = len({chord.root.pc for chord in chords}) == 1
    chromatic = _is_chromatic(notes)
    under = f"under {plain_symbol(chords[0])}" if one else "while the chords change"
    reason = f"The bass goes down by {'half steps' if chromatic else 'step'}, {_dashed(notes)}, {under}."
    inside = plain_symbol(chords[0]) if one else ""
    return [Line(kind, tuple(notes), _span(members), inside, chromatic, reason, 0.9)]


def _bass(group: Sequence[list[Reading]]) -> NoteName:
    return bass_of(chord_of(group[0][0]))


def _steps_down(one: NoteName, two: NoteName) -> bool:
    return (one.pc - two.pc) % 12 in (1, 2)


def _is_chromatic(line: Sequence[NoteName]) -> bool:
    return all((two.pc - one.pc) % 12 in (1, 11) for one, two in pairwise(line))


def _dashed(line: Sequence[NoteName]) -> str:
    return "–".join(map(str, line))


def _span(groups: Sequence[list[Reading]]) -> Span:
    return Span(groups[0][0].at.start, groups[-1][-1].at.end)

"""Another chord in the place of keys that a part holds down together: the same number of keys in the same rhythm,
of which as few move as can, and as little as can, so that it is the harmony that a listener hears changing.

The bass goes where the chord wants it, and the top key stays where it is if it belongs to the chord; in between a key
moves where the chord asks for it. A key that is struck again is always moved in the same way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from studio.music.chord import Chord
from studio.timeline.playing.read_instead import nearest
from studio.timeline.playing.relaid import relaid
from studio.timeline.playing.stroke import Stroke

_OCTAVE = 12


def are_chords(strokes: Sequence[Stroke]) -> bool:
    """Whether some of the keys are down together, and not just for a moment, as in legato."""
    return any(_together(one, other) for one, other in combinations(strokes, 2))


def other_chord(strokes: Sequence[Stroke], chord: Chord) -> list[Stroke]:
    """The chord in the place of the strokes, key by key.

    The lowest of all keys takes the bass, and so does the lowest of each handful that lies within an octave of it; a
    key that goes down alone elsewhere takes the nearest tone.
    """
    lowest = min(stroke.midi for stroke in strokes)
    laid: list[dict[int, int]] = []
    for handful in sorted(_handfuls(strokes), key=lambda one: -len({stroke.midi for stroke in one})):
        keys = sorted({stroke.midi for stroke in handful})
        if not any(known.keys() >= set(keys) for known in laid):
            laid.append(_laid(handful, keys, chord, bass=keys[0] < lowest + _OCTAVE))
    return [
        replace(stroke, midi=_moved(handful, laid)[stroke.midi])
        for handful in _handfuls(strokes)
        for stroke in handful
    ]


def _moved(handful: Sequence[Stroke], laid: Sequence[dict[int, int]]) -> dict[int, int]:
    return next(known for known in laid if known.keys() >= {stroke.midi for stroke in handful})


def _laid(handful: Sequence[Stroke], keys: Sequence[int], chord: Chord, bass: bool) -> dict[int, int]:
    """Where each of the keys of a handful goes."""
    if len(keys) == 1:
        near = (
            [nearest(chord.lowest, keys[0])] if bass else [nearest(name, keys[0]) for name in chord.notes()]
        )
        return {keys[0]: min(near, key=lambda midi: (abs(midi - keys[0]), midi))}
    apart = {
        (lower, upper)
        for lower, upper in combinations(keys, 2)
        if not any(
            _together(one, other)
            for one in handful
            for other in handful
            if (one.midi, other.midi) == (lower, upper)
        )
    }
    return dict(zip(keys, relaid(keys, chord, apart, bass), strict=True))


def _handfuls(strokes: Sequence[Stroke]) -> Iterator[list[Stroke]]:
    """The strokes in groups, of which each stroke is down together with some other; in order of time."""
    left = sorted(strokes, key=lambda stroke: (stroke.span.start, stroke.midi))
    while left:
        group, new = [], [left.pop(0)]
        while new:
            group += new
            new = [one for one in left if any(_together(one, other) for other in new)]
            left = [one for one in left if one not in new]
        yield sorted(group, key=lambda stroke: (stroke.span.start, stroke.midi))


def _together(one: Stroke, other: Stroke) -> bool:
    both = one.span.intersection(other.span)
    return both is not None and both.length * 2 >= min(one.span.length, other.span.length)

"""What is lit, against music21's own MIDI of two pieces of its corpus, at every tick of them."""

from __future__ import annotations

from bisect import bisect_right
from fractions import Fraction
from functools import cache

import pytest

from studio.timeline.kind import Composed
from studio.timeline.song_facts import SongFacts

from .. import corpus_song
from ..corpus_song import MAPLE_LEAF, POLONAISE, Piece

PIECES = pytest.mark.parametrize("piece", [MAPLE_LEAF, POLONAISE], ids=lambda piece: piece.work)


@cache
def song(piece: Piece) -> SongFacts:
    return corpus_song.facts(piece)


@cache
def reference(piece: Piece) -> list[tuple[Fraction, frozenset[int]]]:
    return corpus_song.midi_sounding(piece)


def same_at_every_tick(made: Composed, lit: object, piece: Piece) -> int:
    """How many stretches between two changes were compared; MIDI's ticks inside one are all alike."""
    sounding = reference(piece)
    moments, compared = [at for at, _ in sounding], 0
    states = {start: (end, look) for start, end, look in made.states}
    edges = sorted({*states, *moments})
    current = None
    for start in edges:
        current = states.get(start, current)
        if current is None or start >= max(end for end, _ in states.values()):
            continue
        expected = sounding[bisect_right(moments, start) - 1][1]
        assert lit(current[1]) == expected, f"at quarter {start}"  # type: ignore[operator]
        compared += 1
    return compared


@PIECES
@pytest.mark.slow
def test_the_lit_keys_are_the_midi_notes_that_sound(piece: Piece) -> None:
    found = song(piece)
    made = corpus_song.composed("keyboard", found, found.whole, part="keys")
    lit = lambda look: frozenset(key.midi for key in look.keys)  # noqa: E731
    assert same_at_every_tick(made, lit, piece) > 200


@pytest.mark.slow
@PIECES
def test_the_lit_notes_of_the_staff_are_the_midi_notes_that_sound(piece: Piece) -> None:
    found = song(piece)
    notes = found.song.parts["keys"].part.notes
    made = corpus_song.composed("staff", found, found.whole, part="keys", labels="none")
    lit = lambda look: frozenset(notes[int(name[1:])].pitch.midi for name in look.lit)  # noqa: E731
    assert same_at_every_tick(made, lit, piece) > 200

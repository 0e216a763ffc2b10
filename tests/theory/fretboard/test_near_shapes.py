"""Shapes for a row of chords: small moves, and nothing that a player would not take by itself."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.music.chord import Chord
from studio.music.chord_reader import read_chord
from studio.theory.fretboard.named_tunings import STANDARD
from studio.theory.fretboard.near_shapes import move, shapes_together
from studio.theory.fretboard.search import FoundShape, find_shapes
from studio.theory.fretboard.shape import Shape

TEXTS = ("C", "G", "Am", "F", "Dm7", "C7", "Bm", "Dadd9", "A/C#", "Bb5", "Ebmaj7", "F#m7b5")
ROWS = st.lists(st.sampled_from(TEXTS), min_size=1, max_size=8)


def row(*texts: str) -> tuple[list[Chord], dict[Chord, tuple[FoundShape, ...]]]:
    chords = [read_chord(text) for text in texts]
    return chords, {chord: find_shapes(chord, STANDARD, most=5) for chord in chords}


@pytest.mark.parametrize(
    ("chords", "played"),
    [
        # Common practice.
        ("C G Am F", "x32010 320003 x02210 133211"),
        (
            "C C7 F C",
            "x32010 x32310 133211",
        ),  # C7 stays in the hand of C, though by itself x35353 comes first
        ("G Em C D7", "320003 022000 x32010 xx0212"),
        ("D C G Gm D C G Gm", "xx0232 x32010 320003 355333"),
        ("D5 C5 G5", "xx023x x355xx 355xxx"),
        ("Dm7 G7 Cmaj7", "xx0211 320001 x32000"),
    ],
)
def test_rows_as_they_are_played(chords: str, played: str) -> None:
    assert [shape.text for shape in shapes_together(*row(*chords.split())).values()] == played.split()


@settings(deadline=None, max_examples=60)
@given(ROWS)
def test_no_chord_alone_could_do_better(texts: list[str]) -> None:
    chords, possible = row(*texts)
    chosen = shapes_together(chords, possible)
    best = {chord: next(one for one in possible[chord] if one.shape == chosen[chord]) for chord in chosen}
    for chord in chosen:
        for other in possible[chord]:
            assert total(chords, best) <= total(chords, {**best, chord: other}) + 1e-6


@given(ROWS)
def test_the_choice_is_never_worse_than_the_favourites(texts: list[str]) -> None:
    chords, possible = row(*texts)
    chosen = shapes_together(chords, possible)
    best = {chord: next(one for one in possible[chord] if one.shape == chosen[chord]) for chord in chosen}
    assert total(chords, best) <= total(chords, {chord: possible[chord][0] for chord in chosen}) + 1e-6


def total(chords: list[Chord], chosen: dict[Chord, FoundShape]) -> float:
    moves = pairwise(chords)
    return sum(chosen[chord].cost for chord in chords) + sum(
        move(chosen[one].shape, chosen[two].shape) for one, two in moves if one != two
    )


def test_a_finger_that_stays_is_cheaper_than_one_that_moves() -> None:
    am = Shape((None, 0, 2, 2, 1, 0), (0, 0, 2, 3, 1, 0))
    c = Shape((None, 3, 2, 0, 1, 0), (0, 3, 2, 0, 1, 0))
    far = Shape((None, 10, 12, 12, 11, 10), (0, 1, 3, 4, 2, 1))
    assert move(am, c) == move(c, am) < 0 < move(am, far)


def test_a_persons_own_shape_is_never_exchanged() -> None:
    chords, possible = row("C", "C7")
    own = FoundShape(Shape((8, 10, 10, 9, 8, 8), (1, 3, 4, 2, 1, 1)), 0.0, ())
    assert shapes_together(chords, {**possible, chords[0]: (own,)})[chords[0]] == own.shape

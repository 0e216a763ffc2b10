"""Where notes of voices stand."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from studio.drawing.frame import CanvasSize
from studio.drawing.lettering.symbols import SymbolWords
from studio.drawing.voices.voices import APART, Column, Led, VoiceNote, Voices, heights, page_of

CANVAS = CanvasSize(1920, 1080)
rows = st.lists(st.sets(st.integers(36, 84), min_size=1, max_size=7), min_size=1, max_size=6)


def columns(row: list[set[int]]) -> tuple[Column, ...]:
    return tuple(
        Column(SymbolWords("C"), tuple(VoiceNote("C", midi) for midi in sorted(notes))) for notes in row
    )


@given(rows)
def test_higher_notes_stand_higher_and_names_that_sound_at_once_do_not_touch(row: list[set[int]]) -> None:
    found = heights(columns(row))
    assert set(found) == set().union(*row)
    ordered = sorted(found)
    assert [found[midi] for midi in ordered] == sorted(found.values())
    assert len(set(found.values())) == len(found)
    for notes in row:
        assert all(abs(found[one] - found[two]) >= APART - 1e-9 for one, two in combinations(notes, 2))


@given(rows, st.integers(-12, 12))
def test_transposition_moves_nothing(row: list[set[int]], by: int) -> None:
    here = heights(columns(row))
    there = heights(columns([{midi + by for midi in notes} for notes in row]))
    assert [here[midi] for midi in sorted(here)] == [there[midi] for midi in sorted(there)]


def test_the_chord_that_two_pages_share_is_shown_where_it_goes_on() -> None:
    content = Voices(CANVAS, columns([{60}] * 7), ((0, 3), (3, 6)))
    assert [page_of(content, Led(now)) for now in (None, 0, 2, 3, 6)] == [0, 0, 0, 1, 1]
    assert page_of(content, Led(None, 4)) == 1

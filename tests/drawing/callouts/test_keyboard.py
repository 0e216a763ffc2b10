from __future__ import annotations

import numpy as np
import pytest

from studio.drawing.callouts.keyboard import _range as key_range
from studio.drawing.frame import PADDING
from studio.drawing.instruments.keys import HeldKey, Holding, Keyboard, is_short, key_middle
from studio.drawing.kinds import KINDS
from studio.drawing.themes.theme import default_theme
from studio.music.pitch import Pitch

from ..samples import WIDE
from ..small_song import LEFT, RIGHT, bars, composed, notes

THEME = default_theme()
KIND = KINDS["keyboard"]
BOARD = Keyboard(WIDE, 48, 83, True)
WIDTH = 8 * 8.5


def lit_columns(key: HeldKey, colour: tuple[int, int, int]) -> np.ndarray:
    """Pixel columns of the keyboard in which a colour stands, with only that key held."""
    picture = np.asarray(KIND.draw(BOARD, Holding((key,)), (1728, 312), THEME)).astype(int)
    return np.flatnonzero((np.abs(picture[100:, :, :3] - colour).max(-1) < 6).any(0))


@pytest.mark.parametrize(
    ("midi", "long_key"),
    # The piano's order of keys: C D E F G A B are the long ones, C4 is MIDI 60 (General MIDI).
    [(48, 0), (50, 1), (52, 2), (53, 3), (55, 4), (57, 5), (59, 6), (60, 7), (76, 16), (83, 20)],
)
def test_a_lit_long_key_stands_where_its_midi_note_says(midi: int, long_key: int) -> None:
    columns = lit_columns(HeldKey(midi, ""), THEME.colours.now)
    left = PADDING * 8 + long_key * WIDTH
    assert columns.min() >= left - 1 and columns.max() <= left + WIDTH + 1
    assert columns.max() - columns.min() > WIDTH * 0.8


@pytest.mark.parametrize(("midi", "after"), [(49, 1), (51, 2), (54, 4), (56, 5), (58, 6), (66, 11)])
def test_a_lit_short_key_covers_the_crack_between_its_neighbours(midi: int, after: int) -> None:
    columns = lit_columns(HeldKey(midi, ""), THEME.colours.now)
    crack = PADDING * 8 + after * WIDTH
    assert columns.min() < crack < columns.max()
    assert columns.max() - columns.min() < WIDTH * 0.75


def test_five_short_keys_to_an_octave() -> None:
    assert [n for n in range(60, 72) if is_short(n)] == [61, 63, 66, 68, 70]
    assert key_middle(BOARD, 61) < key_middle(BOARD, 62) < key_middle(BOARD, 63)


def test_hands_differ_in_shape_as_well_as_in_colour() -> None:
    # WCAG 2.2, 1.4.1: colour is not the only means. The right hand's mark is full, the left's is hollow.
    marks = {}
    for hand, accent in ((1, THEME.colours.now), (2, THEME.colours.next)):
        picture = KIND.draw(BOARD, Holding((HeldKey(60, "", hand),)), (1728, 312), THEME)
        x = round(PADDING * 8 + 7.5 * WIDTH)
        column = np.asarray(picture)[100:, x, :3].astype(int)
        assert (np.abs(column - accent).max(-1) < 6).any()
        dark = np.abs(column - THEME.colours.on_accent).max(-1) < 40
        runs = int(np.diff(np.concatenate(([0], (dark[: 312 - 100 - 26]).astype(int)))).clip(0).sum())
        marks[hand] = runs
    assert marks[1] < marks[2]


def test_names_have_ink_and_use_the_spelling_given() -> None:
    def drawn(name: str) -> bytes:
        return KIND.draw(BOARD, Holding((HeldKey(61, name),)), (1728, 312), THEME).tobytes()

    assert len({drawn("C♯"), drawn("D♭"), drawn("")}) == 3


@pytest.mark.parametrize(("low", "high"), [(60, 60), (57, 76), (48, 83), (21, 108), (59, 60)])
def test_the_range_is_whole_octaves_that_hold_all(low: int, high: int) -> None:
    first, last = key_range(low, high)
    assert first <= low and last >= high
    assert first % 12 == 0 and last % 12 == 11 and last - first >= 23


def test_at_each_moment_the_lit_keys_are_the_notes_that_sound() -> None:
    made = composed("keyboard", bars(1, 4), part="keys")
    both = [*notes(LEFT, 2), *notes(RIGHT)]
    assert made.states[0][0] == 0 and made.states[-1][1] == 16
    for start, end, look in made.states:
        sounding = {note.pitch.midi for note in both if note.onset <= start and note.end >= end}
        assert {key.midi for key in look.keys} == sounding
        assert all(key.hand == (2 if key.midi < 60 else 1) for key in look.keys)


def test_keys_are_named_as_the_score_spells_them() -> None:
    look = next(look for start, _, look in composed("keyboard", bars(2, 2), part="keys").states if start == 4)
    assert "E♯" in {key.name for key in look.keys}
    assert Pitch.parse("E#4").midi in {key.midi for key in look.keys}

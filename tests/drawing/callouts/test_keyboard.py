from __future__ import annotations

import numpy as np
import pytest

from studio.drawing.callouts.keyboard import key_range
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


@pytest.mark.parametrize(
    ("low", "high"), [(60, 60), (57, 76), (48, 83), (21, 108), (59, 60), (21, 22), (108, 108)]
)
def test_the_range_holds_all_and_ends_where_no_short_key_is_cut(low: int, high: int) -> None:
    first, last = key_range(low, high)
    assert 21 <= first <= low and high <= last <= 108
    assert last - first >= 23
    # A short key lies between two long ones: none is left of a C or an F, none right of an E or a B.
    assert first % 12 in (0, 5) or first == 21
    assert last % 12 in (4, 11) or last == 108


def test_the_range_is_no_more_than_is_needed() -> None:
    assert key_range(53, 76) == (53, 76)  # F3 to E5 is two octaves
    assert key_range(60, 64) == (53, 76)  # one hand around middle C, as much on its left as on its right
    assert key_range(40, 79) == (36, 83)


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


def test_without_a_part_the_chords_stand_under_two_hands_with_their_symbols() -> None:
    made = composed("keyboard", bars(1, 2))
    looks = [look for _, _, look in made.states]
    assert [(start, end) for start, end, _ in made.states] == [(0, 4), (4, 6), (6, 8)]
    assert [look.chord.text for look in looks] == ["A", "C♯7", "F♯m"]
    for look, root, pcs in zip(looks, (9, 1, 6), ({9, 1, 4}, {1, 5, 8, 11}, {6, 9, 1}), strict=True):
        left = [key.midi for key in look.keys if key.hand == 2]
        right = [key.midi for key in look.keys if key.hand == 1]
        assert [midi % 12 for midi in left] == [root]
        assert {midi % 12 for midi in right} == pcs
        assert max(right) - min(right) < 12 and 53 <= min(right) <= max(right) <= 77


def test_the_keys_of_the_next_chord_are_outlined_and_not_filled() -> None:
    made = composed("keyboard", bars(1, 2))
    first, second, last = (look for _, _, look in made.states)
    assert {key.midi for key in first.coming} == {key.midi for key in second.keys}
    assert first.next_chord.text == "C♯7" and not last.coming
    calm = composed("keyboard", bars(1, 2), next=False)
    assert not any(look.coming for _, _, look in calm.states)
    ahead = next(key.midi for key in first.coming if key.midi not in {held.midi for held in first.keys})
    content = made.content
    shown = np.asarray(KIND.draw(content, Holding(coming=(HeldKey(ahead, ""),)), (1728, 328), THEME)).astype(
        int
    )
    filled = np.asarray(KIND.draw(content, Holding((HeldKey(ahead, "", 2),)), (1728, 328), THEME)).astype(int)
    cool = [int((np.abs(p[140:, :, :3] - THEME.colours.next).max(-1) < 6).sum()) for p in (shown, filled)]
    assert 0 < cool[0] < cool[1] / 2


def test_a_key_that_comes_next_is_dashed_so_that_it_is_no_key_of_the_left_hand() -> None:
    # WCAG 2.2, 1.4.1: colour is not the only means.
    picture = np.asarray(KIND.draw(BOARD, Holding(coming=(HeldKey(60, ""),)), (1728, 312), THEME)).astype(int)
    left = round(PADDING * 8 + 7 * WIDTH)
    edge = (np.abs(picture[100:, left : left + 8, :3] - THEME.colours.next).max(-1) < 6).any(1)
    middle = (np.abs(picture[100:, left + 30, :3] - THEME.colours.next).max(-1) < 6)[:-40]
    runs = int(np.diff(np.concatenate(([0], edge.astype(int)))).clip(0).sum())
    assert runs >= 4 and not middle.any()


def test_keys_can_carry_degrees_or_nothing() -> None:
    # E/G♯: the third in the bass, then 5 1 3 in close position.
    look = composed("keyboard", bars(4, 4), labels="degrees").states[0][2]
    assert sorted(key.name for key in look.keys) == ["1", "3", "3", "5"]
    assert next(key.name for key in look.keys if key.hand == 2) == "3"
    bare = composed("keyboard", bars(4, 4), labels="none")
    assert all(not key.name for _, _, look in bare.states for key in look.keys)
    assert (
        KIND.extent(bare.content, 1728, THEME).wanted
        < KIND.extent(composed("keyboard", bars(4, 4)).content, 1728, THEME).wanted
    )


def test_the_alternative_text_names_chords_and_pitches() -> None:
    assert "C♯7: C♯3 B3 C♯4 E♯4 G♯4" in composed("keyboard", bars(1, 2)).alt


@pytest.mark.parametrize("width", [560, 896, 1140, 1728])
def test_a_narrow_picture_holds_the_whole_keyboard(width: int) -> None:
    picture = KIND.draw(BOARD, Holding((HeldKey(83, "B"),)), (width, 312), THEME)
    assert picture.size == (width, 312)
    lit = np.flatnonzero(
        (np.abs(np.asarray(picture).astype(int)[..., :3] - THEME.colours.now).max(-1) < 6).any(0)
    )
    assert lit.size and lit.max() < width - PADDING * 8 + 1

from __future__ import annotations

import numpy as np

from studio.sound.bed import add, lay


def test_pieces_lie_at_their_samples_and_add_where_they_meet() -> None:
    one, two = np.full((4, 2), 0.75, np.float32), np.full((4, 2), 0.5, np.float32)
    clip = lay(10, [(one, 1), (two, 3)])
    assert clip.shape == (10, 2) and clip.dtype == np.float32
    assert clip[:, 0].tolist() == [0, 0.75, 0.75, 1.25, 1.25, 0.5, 0.5, 0, 0, 0]


def test_what_leaves_the_clip_is_left_out() -> None:
    piece = np.arange(1, 9, dtype=np.float32).repeat(2).reshape(4, 4)[:, :2]
    assert lay(3, [(piece, -2)])[:, 0].tolist() == [piece[2, 0], piece[3, 0], 0]
    assert lay(3, [(piece, 2)])[:, 0].tolist() == [0, 0, piece[0, 0]]
    assert not lay(3, [(piece, 3), (piece, -4), (piece, 99)]).any()


def test_an_empty_bed_is_silence() -> None:
    assert lay(5, []).shape == (5, 2) and not lay(5, []).any()
    assert lay(0, []).shape == (0, 2)


def test_pieces_are_added_to_what_is_there() -> None:
    clip = np.full((6, 2), 0.25, np.float32)
    add(
        clip,
        [
            (np.ones((2, 2), np.float32), 1),
            (np.ones((4, 2), np.float32), -3),
            (np.ones((4, 2), np.float32), 5),
        ],
    )
    assert clip[:, 0].tolist() == [1.25, 1.25, 1.25, 0.25, 0.25, 1.25]

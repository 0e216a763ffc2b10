from __future__ import annotations

import numpy as np

from studio.drawing.lettering.type import plain
from studio.drawing.paint import Sheet

WARM = (255, 182, 76)


def test_alpha_is_straight_so_edges_keep_their_colour() -> None:
    sheet = Sheet((60, 60))
    sheet.dot(30.3, 29.8, 20, WARM)
    sheet.type(plain("g", 40, 600), 5, 40, WARM)
    pixels = np.asarray(sheet.picture)
    partly = pixels[(pixels[..., 3] > 0) & (pixels[..., 3] < 255)]
    assert len(partly) > 40, "edges are not smooth"
    assert (np.abs(partly[:, :3].astype(int) - WARM) <= 8).all(), "edges are darkened: premultiplied"


def test_a_dot_covers_the_area_of_its_circle() -> None:
    sheet = Sheet((101, 101))
    sheet.dot(50, 50, 40, WARM)
    area = np.asarray(sheet.picture)[..., 3].sum() / 255
    assert abs(area - np.pi * 40**2) < 0.01 * np.pi * 40**2


def test_a_ring_is_hollow() -> None:
    sheet = Sheet((101, 101))
    sheet.ring(50, 50, 40, 10, WARM)
    assert sheet.picture.getpixel((50, 50))[3] == 0
    assert sheet.picture.getpixel((50, 15))[3] == 255


def test_a_rectangle_may_end_between_pixels() -> None:
    sheet = Sheet((20, 20))
    sheet.rectangle(5, 5, 10.5, 10, WARM)
    assert [sheet.picture.getpixel((x, 7))[3] for x in (4, 5, 9, 10, 11)] == [0, 255, 255, 128, 0]


def test_a_panel_has_round_corners_and_full_edges() -> None:
    sheet = Sheet((200, 100))
    sheet.panel((26, 33, 38), 0.94, 12)
    alpha = np.asarray(sheet.picture)[..., 3]
    assert alpha[0, 0] == alpha[-1, -1] == alpha[0, -1] == 0
    assert (alpha[50] == 240).all() and (alpha[:, 100] == 240).all()


def test_what_is_laid_over_the_edge_is_cut_off() -> None:
    sheet = Sheet((20, 20))
    sheet.dot(0, 0, 8, WARM)
    sheet.dot(30, 30, 5, WARM)
    assert sheet.picture.size == (20, 20)
    assert sheet.picture.getpixel((2, 2))[3] == 255

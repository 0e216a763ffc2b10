"""Shaping against Pillow with Raqm, which orders and shapes lines by libraries of its own (FriBidi and HarfBuzz).

The lines that it set are kept beside these tests, so that the comparison is made on every machine.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from studio.drawing.lettering.face import Face
from studio.drawing.lettering.outlines import outline
from studio.drawing.lettering.type import mask, plain

from .raqm_lines import HAS_RAQM, HEEBO, LINES, SIZE, kept, set_now


def alike(one: Image.Image, other: Image.Image) -> float:
    """How much ink two lines share, of all that either has: 1 where they are the same."""
    assert abs(one.width - other.width) <= 3 and abs(one.height - other.height) <= 3
    other = other.resize(one.size, Image.Resampling.BOX)
    first, second = (np.asarray(ink, np.float64) for ink in (one, other))
    return float(np.minimum(first, second).sum() / np.maximum(first, second).sum())


@pytest.mark.parametrize(("text", "file"), LINES)
def test_lines_are_as_long_as_pillow_sets_them(text: str, file: Path) -> None:
    found = outline(text, Face(400, (str(file),))).advance
    # At 1000 pixels FreeType rounds each advance to a pixel, which is a thousandth of the size.
    assert found == pytest.approx(kept(text)[0].advance, abs=0.5 * len(text) + 1)


@pytest.mark.parametrize(("text", "file"), LINES)
def test_glyphs_stand_where_pillow_sets_them(text: str, file: Path) -> None:
    ours, _, _ = mask(plain(text, SIZE, Face(400, (str(file),))))
    assert alike(ours, kept(text)[1]) > 0.85


if HAS_RAQM:  # where there is none, nothing is left out: what is kept is compared with all the same

    @pytest.mark.parametrize(("text", "file"), LINES)
    def test_what_is_kept_is_what_pillow_sets(text: str, file: Path) -> None:
        line, ink = set_now(text, file)
        assert kept(text)[0].advance == pytest.approx(line.advance, abs=1)
        assert alike(kept(text)[1], ink) > 0.95


def test_a_line_that_is_turned_round_would_be_told() -> None:
    # What the comparison above would find if the order of the glyphs were wrong.
    right = np.asarray(mask(plain("שלום עולם", SIZE, Face(400, (str(HEEBO),))))[0], np.float64)
    wrong = right[:, ::-1]
    assert np.minimum(right, wrong).sum() / np.maximum(right, wrong).sum() < 0.6


def test_letters_that_stand_tall_are_not_cut_off() -> None:
    stacked = "Ẫ̂̂̂"
    ink, _, top = mask(plain(stacked, 100, 400))
    plain_ink, _, plain_top = mask(plain("A", 100, 400))
    assert ink.height > plain_ink.height + 20 and top < plain_top - 20
    assert Image.Image.getbbox(ink) == (0, 0, *ink.size)

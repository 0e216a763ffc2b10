"""The signs that are drawn here or taken from the music font, by the code points of SMuFL."""

from __future__ import annotations

import re
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest

from studio.drawing.lettering.accidentals import _ACCIDENTALS as ACCIDENTALS
from studio.drawing.lettering.quality_signs import DIMINISHED, HALF_DIMINISHED
from studio.drawing.lettering.type import mask, plain


@pytest.mark.parametrize(
    ("sign", "name"),
    [
        # Names of SMuFL 1.4, range "Standard accidentals", as the metadata of the font that Verovio ships has them.
        ("♭", "accidentalFlat"),
        ("♮", "accidentalNatural"),
        ("♯", "accidentalSharp"),
        ("𝄪", "accidentalDoubleSharp"),
        ("𝄫", "accidentalDoubleFlat"),
    ],
)
def test_each_accidental_is_the_glyph_that_the_font_s_metadata_name(sign: str, name: str) -> None:
    spec = find_spec("verovio")
    assert spec is not None and spec.origin is not None
    metadata = (Path(spec.origin).parent / "data" / "Bravura.xml").read_text("utf-8")
    glyph = re.search(rf'<g c="{ACCIDENTALS[sign].code}"[^>]* n="(\w+)"', metadata)
    assert glyph is not None and glyph[1] == name


def test_the_code_points_of_qualities() -> None:
    # SMuFL 1.4, range "Chord symbols": csymDiminished and csymHalfDiminished; from memory.
    assert (ord(DIMINISHED), ord(HALF_DIMINISHED)) == (0xE870, 0xE871)


def test_a_diminished_sign_is_a_ring_at_the_height_of_capitals() -> None:
    ink, _, top = mask(plain(DIMINISHED, 200, 600))
    pixels = np.asarray(ink)
    assert abs(ink.width - ink.height) <= 1
    assert pixels[ink.height // 2, ink.width // 2] == 0 and pixels[0, ink.width // 2] > 0
    _, _, capital = mask(plain("H", 200, 600))
    assert top == pytest.approx(capital, abs=6)


def test_a_half_diminished_sign_has_a_stroke_through_it() -> None:
    pixels = np.asarray(mask(plain(HALF_DIMINISHED, 200, 600))[0])
    rows, columns = pixels.shape
    assert pixels[rows // 2, columns // 2] == 255
    assert pixels[-12:, :12].max() == pixels[:12, -12:].max() == 255
    assert pixels[:12, :12].max() == pixels[-12:, -12:].max() == 0


def test_signs_are_bolder_in_a_bolder_face() -> None:
    light, bold = (np.asarray(mask(plain(DIMINISHED, 200, weight))[0]).sum() for weight in (400, 700))
    assert bold > 1.2 * light

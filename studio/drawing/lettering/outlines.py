"""Outlines of lines of text: each run shaped by HarfBuzz in its font, and signs of music.

All numbers are thousandths of the type size, y upwards, so a line is measured once and set at any size.
Nothing here depends on the fonts or the libraries of the machine, so every machine draws the same letters.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from studio.drawing.lettering.accidentals import accidental
from studio.drawing.lettering.face import Weight, face_of
from studio.drawing.lettering.quality_signs import QUALITY_SIGNS, quality_sign
from studio.drawing.lettering.runs import Run, runs

CAP = 0.66
"""Height of a capital letter, in type sizes (Source Sans 3)."""

ASCENDER = 0.74
"""Height of b, d, l over the baseline, in type sizes."""

DESCENDER = 0.21
"""Depth of g, p, q under the baseline, in type sizes."""


@dataclass(frozen=True)
class Outline:
    """SVG path data (y upwards, thousandths) of letters and of signs of music, and how far they move the pen.

    `highest` and `lowest` are how far letters reach over and under the baseline, at least as far as Latin ones.
    """

    letters: str
    signs: str
    advance: float
    highest: float = 1000 * ASCENDER
    lowest: float = -1000 * DESCENDER


class _Pen:
    """Receives outlines from HarfBuzz (the fontTools pen protocol) and writes SVG path data."""

    def __init__(self) -> None:
        self.x = self.y = 0.0
        self.data: list[str] = []
        self.highest, self.lowest = 1000 * ASCENDER, -1000 * DESCENDER

    def _add(self, letter: str, *points: tuple[float, float]) -> None:
        self.data.append(letter + " ".join(f"{x + self.x:g} {y + self.y:g}" for x, y in points))
        for _, y in points:
            self.highest, self.lowest = max(self.highest, y + self.y), min(self.lowest, y + self.y)

    def moveTo(self, point: tuple[float, float]) -> None:  # noqa: N802, the protocol's names
        self._add("M", point)

    def lineTo(self, point: tuple[float, float]) -> None:  # noqa: N802
        self._add("L", point)

    def curveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        self._add("C", *points)

    def qCurveTo(self, *points: tuple[float, float]) -> None:  # noqa: N802
        self._add("Q", *points)

    def closePath(self) -> None:  # noqa: N802
        self.data.append("Z")


@lru_cache(maxsize=4096)
def outline(text: str, weight: Weight) -> Outline:
    """The outline of `text` on one line, kerned, in any script that the face's fonts have, each read its own way.

    A character that none of them has is drawn as the family's empty box; see `runs.missing`.
    """
    pen = _Pen()
    signs: list[str] = []
    end = _laid(text, weight, pen, signs)
    return Outline("".join(pen.data), "".join(signs), end, pen.highest, pen.lowest)


@lru_cache(maxsize=16384)
def advance(text: str, weight: Weight) -> float:
    """How wide the outline of `text` is: found without drawing it, since lines are measured more than drawn."""
    return _laid(text, weight, None, [])


def _laid(text: str, weight: Weight, pen: _Pen | None, signs: list[str]) -> float:
    """Lay the runs of a line side by side; returns where they end."""
    x, after_space = 0.0, False
    for run in runs(text, face_of(weight)):
        if run.font is not None:
            x = _shaped(run, pen, x)
        else:
            is_quality = run.text in QUALITY_SIGNS
            path, wide = quality_sign(run.text, x) if is_quality else accidental(run.text, x, after_space)
            signs.append(path)
            x += wide
        after_space = run.text[0 if run.from_right else -1].isspace()
    return x


def _shaped(run: Run, pen: _Pen | None, x: float) -> float:
    """Draw a run that begins at `x` with a pen, where there is one; returns where it ends."""
    import uharfbuzz

    assert run.font is not None
    buffer = uharfbuzz.Buffer()
    buffer.add_str(run.text)
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if run.from_right else "ltr"
    uharfbuzz.shape(run.font.shaper, buffer, {"kern": True, "liga": True, "lnum": True})
    for glyph, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        if pen is not None:
            pen.x, pen.y = x + position.x_offset, position.y_offset
            run.font.shaper.draw_glyph_with_pen(glyph.codepoint, pen)
        x += position.x_advance
    return x

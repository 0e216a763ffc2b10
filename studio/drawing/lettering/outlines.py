"""Outlines of glyphs: text shaped by HarfBuzz from one text family, accidentals from an engraving font.

All numbers are thousandths of the type size, y upwards, so a run is measured once and set at any size.
Nothing here depends on the fonts or the libraries of the machine, so every machine draws the same letters.
"""

from __future__ import annotations

import importlib.util
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

CAP = 0.66
"""Height of a capital letter, in type sizes (Source Sans 3)."""

ASCENDER = 0.74
"""Height of b, d, l over the baseline, in type sizes."""

DESCENDER = 0.21
"""Depth of g, p, q under the baseline, in type sizes."""


@dataclass(frozen=True)
class Outline:
    """SVG path data (y upwards, thousandths) of letters and of accidentals, and how far they move the pen."""

    letters: str
    signs: str
    advance: float


@dataclass(frozen=True)
class _Accidental:
    """How a glyph of the engraving font sits in text: its SMuFL code, scale, lift, and room around it."""

    code: str
    scale: float
    stretch: float  # across, on top of scale: room for the bolder stroke
    lift: float  # thousandths: where the glyph's own origin (its staff line) goes, above the baseline
    before: float
    after: float


# The sharp and the natural stand centred on a capital, a little taller than it; the flat's bowl sits just over
# the baseline and its stem reaches a little past the capital's top, as an engraver would set them in a title.
_ACCIDENTALS = {
    "♭": _Accidental("E260", 1.08, 1.08, 208, 44, 46),
    "♯": _Accidental("E262", 1.0, 1.16, 332, 44, 52),
    "♮": _Accidental("E261", 1.0, 1.2, 332, 44, 52),
    "𝄪": _Accidental("E263", 1.15, 1.0, 332, 44, 52),
    "𝄫": _Accidental("E264", 1.08, 1.08, 208, 44, 50),
}
_SPLIT = re.compile("([" + "".join(_ACCIDENTALS) + "])")


class _Pen:
    """Receives an outline from HarfBuzz (the fontTools pen protocol) and writes SVG path data."""

    def __init__(self, x: float, y: float) -> None:
        self.x, self.y = x, y
        self.data: list[str] = []

    def _add(self, letter: str, *points: tuple[float, float]) -> None:
        self.data.append(letter + " ".join(f"{x + self.x:g} {y + self.y:g}" for x, y in points))

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
def outline(text: str, weight: float) -> Outline:
    """The outline of `text` on one line at `weight` (200 to 900), kerned, with real accidentals.

    A character that no font here has is drawn as the family's empty box; see `missing`.
    """
    letters: list[str] = []
    signs: list[str] = []
    pen = 0.0
    for run in _SPLIT.split(text):
        if not run:
            continue
        if run in _ACCIDENTALS:
            path, advance = _accidental(run, pen)
            signs.append(path)
        else:
            path, advance = _shaped(run, weight, pen)
            letters.append(path)
        pen += advance
    return Outline("".join(letters), "".join(signs), pen)


def sign_stroke(weight: float) -> float:
    """Thickness, in thousandths, by which accidentals are drawn bolder to match letters of `weight`.

    The engraving font's signs are as light as this family's regular weight, and come in no other.
    """
    return max(0.0, (weight - 330) * 0.085)


def missing(text: str) -> str:
    """The characters of `text` that cannot be drawn, each once, in order."""
    known = _face().unicodes
    lacking = (c for c in text if c not in _ACCIDENTALS and not c.isspace() and ord(c) not in known)
    return "".join(dict.fromkeys(lacking))


def _shaped(text: str, weight: float, start: float) -> tuple[str, float]:
    import uharfbuzz

    font = _font(weight)
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    uharfbuzz.shape(font, buffer, {"kern": True, "liga": True, "lnum": True})
    data: list[str] = []
    x = start
    for glyph, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        pen = _Pen(x + position.x_offset, position.y_offset)
        font.draw_glyph_with_pen(glyph.codepoint, pen)
        data.extend(pen.data)
        x += position.x_advance
    return "".join(data), x - start


def _accidental(sign: str, start: float) -> tuple[str, float]:
    how = _ACCIDENTALS[sign]
    path, left, width = _engraved(how.code)
    before = how.before if start else 0  # nothing to keep away from at the start of a line
    across = how.scale * how.stretch
    moved = _moved(path, (across, how.scale), (start + before - left * across, how.lift))
    return moved, before + width * across + how.after


def _moved(path: str, scale: tuple[float, float], by: tuple[float, float]) -> str:
    """Path data scaled and then moved. The engraving font's paths use both absolute and relative commands."""
    out: list[str] = []
    for letter, numbers in re.findall(r"([a-zA-Z])([^a-zA-Z]*)", path):
        values = [float(number) for number in re.findall(r"-?\d*\.?\d+", numbers)]
        absolute = letter.isupper()
        for index, value in enumerate(values):
            axis = 1 if letter in "Vv" or (letter not in "Hh" and index % 2 == 1) else 0
            values[index] = value * scale[axis] + (by[axis] if absolute else 0)
        out.append(letter + " ".join(f"{value:.5g}" for value in values))
    return "".join(out)


def engraved_width(code: str) -> float:
    """Width of a glyph of the engraving font by its SMuFL code, in thousandths (four staff spaces)."""
    return _engraved(code)[2]


@cache
def _engraved(code: str) -> tuple[str, float, float]:
    """Path data, left edge and width of a glyph of Bravura, whose outlines come with Verovio."""
    spec = importlib.util.find_spec("verovio")
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError("verovio is not installed: its music font draws the accidentals.")
    folder = Path(spec.origin).parent / "data"
    glyph = (folder / "Bravura" / f"{code}.xml").read_text(encoding="utf-8")
    found = re.search(r'\bd="([^"]+)"', glyph)
    boxes = (folder / "Bravura.xml").read_text(encoding="utf-8")
    box = re.search(rf'<g c="{code}" x="([-\d.]+)" y="[-\d.]+" w="([-\d.]+)"', boxes)
    if found is None or box is None:
        raise LookupError(f"verovio's music font has no glyph {code}.")
    return found[1], float(box[1]), float(box[2])


@cache
def font_file() -> Path:
    """The file of the text family: Source Sans 3, a variable font under the SIL Open Font Licence."""
    import fontpkg_source_sans_3

    return Path(fontpkg_source_sans_3.ROOT) / "files" / "SourceSans3[wght].ttf"


@cache
def _face() -> Any:
    import uharfbuzz

    return uharfbuzz.Face(uharfbuzz.Blob.from_file_path(str(font_file())))


@cache
def _font(weight: float) -> Any:
    import uharfbuzz

    font = uharfbuzz.Font(_face())
    font.scale = (1000, 1000)
    font.set_variations({"wght": weight})
    return font

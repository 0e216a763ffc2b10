"""Accidentals in text: the text family has none, so they come from the engraving font whose outlines Verovio ships."""

from __future__ import annotations

import importlib.util
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path


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

_AFTER_SPACE = 44  # more room, for a sign has no side bearing as a letter has, which makes a space look full

ACCIDENTALS = frozenset(_ACCIDENTALS)
"""The characters that are drawn as signs of music."""


def accidental(sign: str, start: float, begins_word: bool = False) -> tuple[str, float]:
    """Path data of a sign that stands at `start`, and how far it moves the pen, in thousandths of the type size."""
    how = _ACCIDENTALS[sign]
    path, left, width = _engraved(how.code)
    before = (how.before + begins_word * _AFTER_SPACE) if start else 0  # no need at the start of a line
    across = how.scale * how.stretch
    moved = _moved(path, (across, how.scale), (start + before - left * across, how.lift))
    return moved, before + width * across + how.after


def sign_stroke(weight: float) -> float:
    """Thickness, in thousandths, by which accidentals are drawn bolder to match letters of `weight`.

    The engraving font's signs are as light as the text family's regular weight, and come in no other.
    """
    return max(0.0, (weight - 330) * 0.085)


def engraved_width(code: str) -> float:
    """Width of a glyph of the engraving font by its SMuFL code, in thousandths (four staff spaces)."""
    return _engraved(code)[2]


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

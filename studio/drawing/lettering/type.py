"""Setting type: pieces of text at their sizes and heights become a line, and a line becomes a mask of ink."""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

import resvg_py
from PIL import Image

from studio.drawing.lettering.outlines import ASCENDER, CAP, DESCENDER, outline, sign_stroke

ROOM = 0.35
"""Room around a line in which accents, tails and lifted pieces find place, in sizes of its largest piece."""


@dataclass(frozen=True)
class Piece:
    """Text at one size and weight; `x` and `rise` (upwards) place its baseline, all in pixels."""

    text: str
    size: float
    weight: float
    x: float
    rise: float = 0.0

    @property
    def width(self) -> float:
        return outline(self.text, self.weight).advance * self.size / 1000


@dataclass(frozen=True)
class Line:
    """Pieces that stand on one baseline, and the width that they take together, in pixels."""

    pieces: tuple[Piece, ...] = ()
    width: float = 0.0

    @property
    def size(self) -> float:
        """Size of the largest piece."""
        return max((piece.size for piece in self.pieces), default=0.0)

    @property
    def smallest(self) -> float:
        """Size of the smallest piece."""
        return min((piece.size for piece in self.pieces), default=0.0)

    @property
    def cap(self) -> float:
        """Height of a capital letter of the largest piece."""
        return CAP * self.size

    def then(
        self,
        text: str,
        size: float,
        weight: float,
        *,
        rise: float = 0.0,
        before: float = 0.0,
        wide: bool = True,
    ) -> Line:
        """This line with `text` set after it, `before` pixels further on.

        With `wide=False` the piece takes no room, so that the next one stands at the same place (a stack).
        """
        if not text:
            return self
        gap = before if self.pieces else 0.0
        piece = Piece(text, size, weight, self.width + gap, rise)
        width = self.width + gap + piece.width if wide else self.width
        return Line((*self.pieces, piece), width)

    def widened(self, width: float) -> Line:
        """This line, at least `width` wide."""
        return replace(self, width=max(self.width, width))

    def scaled(self, factor: float) -> Line:
        """This line, larger or smaller. Type here has no hinting, so widths scale exactly."""
        return Line(
            tuple(
                Piece(p.text, p.size * factor, p.weight, p.x * factor, p.rise * factor) for p in self.pieces
            ),
            self.width * factor,
        )

    def fitted(self, width: float) -> Line:
        """This line, made smaller where it is wider than `width`."""
        return self if self.width <= width else self.scaled(width / self.width)


def plain(text: str, size: float, weight: float) -> Line:
    """One piece of text as a line."""
    return Line().then(text, size, weight)


def wrap(text: str, size: float, weight: float, width: float) -> tuple[str, ...]:
    """`text` broken between words into lines no wider than `width` pixels (a longer word stands alone)."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and plain(longer, size, weight).width <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def balanced(text: str, size: float, weight: float, width: float) -> tuple[str, ...]:
    """As `wrap`, with the same number of lines but as even in length as the words allow."""
    lines = wrap(text, size, weight, width)
    if len(lines) < 2:
        return lines
    narrow, wide = width / len(lines), width
    for _ in range(8):
        middle = (narrow + wide) / 2
        tried = wrap(text, size, weight, middle)
        if len(tried) <= len(lines) and all(plain(t, size, weight).width <= width for t in tried):
            wide = middle
        else:
            narrow = middle
    return wrap(text, size, weight, wide)


@lru_cache(maxsize=2048)
def mask(line: Line) -> tuple[Image.Image, int, int]:
    """Ink of a line as an 8-bit mask, and how far its left and top lie from the start of the baseline, in pixels."""
    room = ROOM * line.size
    above = int(max((p.rise + ASCENDER * p.size for p in line.pieces), default=0) + room) + 1
    below = int(max((DESCENDER * p.size - p.rise for p in line.pieces), default=0) + room) + 1
    left = int(room) + 1
    right = max((p.x + p.width for p in line.pieces), default=0.0)
    width, height = left + int(right + room) + 1, above + below
    drawn = "".join(_drawn(piece, left, above) for piece in line.pieces)
    ink = rasterised(f'<g fill="#fff">{drawn}</g>', width, height).getchannel("A")
    box = ink.getbbox() or (0, 0, 1, 1)
    return ink.crop(box), box[0] - left, box[1] - above


def rasterised(body: str, width: int, height: int) -> Image.Image:
    """The SVG elements `body` drawn on a transparent picture of `width` by `height` pixels."""
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}">{body}</svg>'
    )
    png = resvg_py.svg_to_bytes(svg_string=svg, skip_system_fonts=True)
    return Image.open(io.BytesIO(png)).convert("RGBA")


def smallest(lines: Iterable[Line]) -> float:
    """Size of the smallest piece in `lines`, in pixels."""
    return min((line.smallest for line in lines if line.pieces), default=0.0)


def _drawn(piece: Piece, left: float, baseline: float) -> str:
    scale = piece.size / 1000
    place = f"translate({left + piece.x:.3f} {baseline - piece.rise:.3f}) scale({scale:.6f} {-scale:.6f})"
    found = outline(piece.text, piece.weight)
    bolder = f'stroke="#fff" stroke-width="{sign_stroke(piece.weight):.1f}" stroke-linejoin="round"'
    return f'<g transform="{place}"><path d="{found.letters}"/><path d="{found.signs}" {bolder}/></g>'

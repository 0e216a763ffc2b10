"""Setting type: pieces of text at their sizes and heights become a line, and a line becomes a mask of ink."""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

import resvg_py
from PIL import Image

from studio.drawing.lettering.accidentals import sign_stroke
from studio.drawing.lettering.breaking import line_of, lines_of, words
from studio.drawing.lettering.face import Weight, face_of
from studio.drawing.lettering.outlines import CAP, Outline, advance, outline
from studio.drawing.lettering.runs import reads_from_right

ROOM = 0.35
"""Room around a line in which accents, tails and lifted pieces find place, in sizes of its largest piece."""


_GUESSED = 0.05  # share of its width by which a line may be longer or shorter than its words set alone


@dataclass(frozen=True)
class Piece:
    """Text at one size and weight; `x` and `rise` (upwards) place its baseline, all in pixels."""

    text: str
    size: float
    weight: Weight
    x: float
    rise: float = 0.0

    @property
    def width(self) -> float:
        return advance(self.text, self.weight) * self.size / 1000

    @property
    def outline(self) -> Outline:
        return outline(self.text, self.weight)


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
        weight: Weight,
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


def plain(text: str, size: float, weight: Weight) -> Line:
    """One piece of text as a line."""
    return Line().then(text, size, weight)


def shortened(text: str, size: float, weight: Weight, width: float) -> Line:
    """A line of text, cut with an ellipsis where it is wider than `width` pixels."""
    line = plain(text, size, weight)
    while line.width > width and len(text) > 1:
        text = text.rstrip("…")[:-1].rstrip() + "…"
        line = plain(text, size, weight)
    return line


def side(text: str) -> Literal["left", "right"]:
    """The side at which the lines of a paragraph stand: the one at which they begin to be read."""
    return "right" if reads_from_right(text) else "left"


def wrap(text: str, size: float, weight: Weight, width: float) -> tuple[str, ...]:
    """`text` broken into lines no wider than `width` pixels; a word that cannot be broken stands alone."""
    from_right = reads_from_right(text)

    def wide(words: str) -> float:
        return advance(words, weight) * size / 1000

    def fits(line: str, used: float, part: str) -> bool:
        guess = used + wide(part.rstrip())
        if abs(guess - width) > _GUESSED * width:
            return guess < width
        return wide(line_of(line + part, from_right)) <= width

    lines: list[str] = []
    used = 0.0  # of the last line, its last space included, as if each word were set alone
    for parts in words(text):
        word = "".join(parts)
        for part in (word,) if wide(word.rstrip()) <= width else parts:
            if lines and fits(lines[-1], used, part):
                lines[-1] += part
                used += wide(part)
            else:
                lines.append(part)
                used = wide(part)
    return lines_of(lines, from_right)


def balanced(text: str, size: float, weight: Weight, width: float) -> tuple[str, ...]:
    """As `wrap`, with the same number of lines but as even in length as the words allow; none is broken for it."""
    lines = wrap(text, size, weight, width)
    if len(lines) < 2:
        return lines
    lengths = [advance("".join(parts).rstrip(), weight) * size / 1000 for parts in words(text)]
    narrow = max([width / len(lines), *(length for length in lengths if length <= width)])
    wide = width
    for _ in range(8):
        middle = (narrow + wide) / 2
        tried = wrap(text, size, weight, middle)
        if len(tried) <= len(lines) and all(advance(t, weight) * size / 1000 <= width for t in tried):
            wide = middle
        else:
            narrow = middle
    return wrap(text, size, weight, wide)


@lru_cache(maxsize=2048)
def mask(line: Line) -> tuple[Image.Image, int, int]:
    """Ink of a line as an 8-bit mask, and how far its left and top lie from the start of the baseline, in pixels."""
    room = ROOM * line.size
    above = int(max((p.rise + p.outline.highest * p.size / 1000 for p in line.pieces), default=0) + room) + 1
    below = int(max((-p.outline.lowest * p.size / 1000 - p.rise for p in line.pieces), default=0) + room) + 1
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
    found, weight = piece.outline, face_of(piece.weight).weight
    bolder = f'stroke="#fff" stroke-width="{sign_stroke(weight):.1f}" stroke-linejoin="round"'
    return f'<g transform="{place}"><path d="{found.letters}"/><path d="{found.signs}" {bolder}/></g>'

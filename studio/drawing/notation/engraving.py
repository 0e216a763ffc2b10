"""Engraved notation: MusicXML in, a picture of ink out, with the place of every note.

Verovio sets the music and knows beams, stems, accidentals and spacing; resvg fills its outlines. Words are
left to `studio.drawing.lettering.type`, because text inside the engraving would need a font of the machine.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from PIL import Image

from studio.drawing.lettering.type import rasterised
from studio.drawing.notation.engraved_places import SPACE, SVG, NoteHead, bar_starts, heads, staff_lines
from studio.drawing.themes.contrast import Colour

_OPTIONS = {
    "xmlIdSeed": 7,  # ids, and so the drawing, are the same in every run
    "font": "Bravura",
    "header": "none",
    "footer": "none",
    "adjustPageHeight": True,
    "pageHeight": 100,  # room for one system, so that each page is one
    "pageMarginLeft": 0,
    "pageMarginRight": 0,
    "pageMarginTop": 0,
    "pageMarginBottom": 0,
    "minLastJustification": 0.5,
    "spacingLinear": 0.22,
    "staffLineWidth": 0.18,
    "stemWidth": 0.24,
    "barLineWidth": 0.3,
    "svgViewBox": True,
}
"""Lines are a little stronger than on paper, so that they survive a phone's size."""

_WORDS = {"label", "labelAbbr", "verse", "harm", "tempo", "dir", "mNum"}


@dataclass(frozen=True)
class Engraving:
    """One system of music. Sizes and places are in staff spaces; `svg` has ids on its notes.

    `starts` is where the music of each bar begins, be it a note or a rest.
    """

    width: float
    height: float
    lines: tuple[float, ...]  # the staff lines, from the top
    heads: tuple[NoteHead, ...]
    starts: tuple[float, ...]
    svg: str

    @property
    def bars(self) -> int:
        """How many bars the system holds."""
        return len(self.starts)


@lru_cache(maxsize=64)
def engrave(musicxml: str, across: float) -> tuple[Engraving, ...]:
    """Set `musicxml` in systems `across` staff spaces wide, as many as it takes, broken at bar lines.

    The same text always gives the same drawing. Raises ValueError when Verovio cannot read it.
    """
    unnamed = _unnamed(musicxml)
    found = _set(unnamed, across, "auto")
    bars = len(set(re.findall(r"<measure\b[^>]*?number=\"(-?\d+)", musicxml)))
    if len(found) > 1:
        even = _set(_turned(unnamed, -(-bars // len(found))), across, "encoded")
        if len(even) == len(found) and _tightest(even) >= 0.8 * _tightest(found):
            found = even
    return found


def _unnamed(musicxml: str) -> str:
    """Without the names of parts, which would indent the first system; the callout has its own words."""
    root = ElementTree.fromstring(musicxml)
    for listed in root.iter("score-part"):
        for element in list(listed):
            if element.tag.startswith(("part-name", "part-abbreviation")):
                element.clear()
    return ElementTree.tostring(root, encoding="unicode")


def _set(musicxml: str, across: float, breaks: str) -> tuple[Engraving, ...]:
    import verovio

    verovio.enableLog(verovio.LOG_OFF)  # bars cut out of a song leave ties open; that is no news
    toolkit = verovio.toolkit()
    toolkit.setOptions({**_OPTIONS, "breaks": breaks, "pageWidth": max(100, round(across * SPACE))})
    if not toolkit.loadData(musicxml):
        raise ValueError("this notation cannot be engraved: the engraver does not read it.")
    return tuple(_read(toolkit.renderToSVG(page)) for page in range(1, toolkit.getPageCount() + 1))


def _turned(musicxml: str, bars: int) -> str:
    """The same notation with a page turn after each `bars` bars, so that pages are evenly full."""
    root = ElementTree.fromstring(musicxml)
    for part in root.iter("part"):
        for number, measure in enumerate(part.findall("measure")):
            if number and number % bars == 0:
                measure.insert(0, ElementTree.Element("print", {"new-page": "yes"}))
    return ElementTree.tostring(root, encoding="unicode")


def _tightest(systems: tuple[Engraving, ...]) -> float:
    """The least distance between neighbouring notes, in staff spaces."""
    gaps = [
        two - one
        for system in systems
        for one, two in pairwise(sorted({round(head.x, 2) for head in system.heads}))
        if two - one > 0.9
    ]
    return min(gaps, default=1.0)


def ink(
    engraving: Engraving, space: float, colour: Colour, lit: Iterable[str] = (), accent: Colour | None = None
) -> Image.Image:
    """The engraving as an RGBA picture, `space` pixels between two staff lines.

    Notes whose id is in `lit` are drawn in `accent`, everything else in `colour`.
    """
    size = (max(1, round(engraving.width * space)), max(1, round(engraving.height * space)))
    picture = _ink(engraving.svg, size, colour)
    shining = frozenset(lit)
    middles = sorted(head.x * space for head in engraving.heads if head.id in shining)
    if not middles:
        return picture
    picture = picture.copy()
    for left, right in _windows(middles, REACH * space, size[0]):
        picture.paste(_lit(engraving.svg, size, colour, shining, accent or colour, left, right), (left, 0))
    return picture


REACH = 3.5
"""Staff spaces to either side of a note's head within which its accidentals, dots and flags lie."""


def _windows(middles: list[float], reach: float, width: int) -> list[tuple[int, int]]:
    """Columns of pixels around the places of lit notes; where two would overlap they are one."""
    found: list[tuple[int, int]] = []
    for middle in middles:
        left, right = max(0, int(middle - reach)), min(width, int(middle + reach) + 1)
        if found and left <= found[-1][1]:
            left = found.pop()[0]
        found.append((left, right))
    return found


@lru_cache(maxsize=16)
def _ink(svg: str, size: tuple[int, int], colour: Colour) -> Image.Image:
    return _lit(svg, size, colour, frozenset(), colour, 0, size[0])


def _lit(
    svg: str,
    size: tuple[int, int],
    colour: Colour,
    lit: frozenset[str],
    accent: Colour,
    left: int,
    right: int,
) -> Image.Image:
    """The columns from `left` up to `right` of the drawing at `size`: only those are filled anew for a new look."""
    root = ElementTree.fromstring(svg)
    for element in root.iter(f"{{{SVG}}}g"):
        if element.get("id") in lit:
            for paint in ("fill", "color", "stroke"):
                element.set(paint, _hex(accent))
    root.set("fill", _hex(colour))
    root.set("color", _hex(colour))
    root.set("width", str(size[0]))
    root.set("height", str(size[1]))
    drawn = ElementTree.tostring(root, encoding="unicode")
    return rasterised(f'<g transform="translate({-left} 0)">{drawn}</g>', right - left, size[1])


def _read(svg: str) -> Engraving:
    ElementTree.register_namespace("", SVG)
    root = ElementTree.fromstring(svg)
    definition = next(e for e in root.iter(f"{{{SVG}}}svg") if e.get("class") == "definition-scale")
    definition.set("color", "inherit")
    _strip_words(root)
    scale = SPACE * 10
    _, _, width, height = (float(n) for n in definition.get("viewBox", "0 0 1 1").split())
    above, width, height = _trimmed(root, definition, (width, height))
    lines = sorted(set(staff_lines(definition)))
    return Engraving(
        width / scale,
        height / scale,
        tuple((line - above) / scale for line in lines),
        tuple(replace(head, y=head.y - above / scale) for head in heads(definition, scale)),
        tuple(start / scale for start in bar_starts(definition)),
        ElementTree.tostring(root, encoding="unicode"),
    )


def _trimmed(
    root: ElementTree.Element, definition: ElementTree.Element, size: tuple[float, float]
) -> tuple[float, float, float]:
    """Cut the empty paper around the ink off; how much went above, and the width and height left."""
    width, height = size
    coarse = 3.0 / (SPACE * 10)  # three pixels to a staff space
    look = rasterised(
        ElementTree.tostring(root, encoding="unicode"), round(width * coarse), round(height * coarse)
    )
    box = look.getchannel("A").getbbox() or (0, 0, *look.size)
    above = max(0.0, (box[1] - 2) / coarse)
    wide = min(width, (box[2] + 1) / coarse)
    tall = min(height, (box[3] + 2) / coarse) - above
    definition.set("viewBox", f"0 {above:g} {wide:g} {tall:g}")
    root.set("viewBox", f"0 0 {wide / 10:g} {tall / 10:g}")
    return above, wide, tall


def _strip_words(root: ElementTree.Element) -> None:
    for parent in list(root.iter()):
        for child in list(parent):
            words = child.tag == f"{{{SVG}}}text" or child.get("class") in _WORDS
            if words or child.tag == f"{{{SVG}}}desc" or "placeholder" in (child.get("class") or ""):
                parent.remove(child)


def _hex(colour: Colour) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)

"""The ink of an engraving as a picture, with the notes that sound in another colour.

resvg fills the outlines once for each size and colour. A note is then lit by colouring the pixels that it
covers: nothing is engraved or filled anew when what sounds changes, but each note's own shape, once.
"""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from collections.abc import Iterable
from functools import lru_cache

import numpy as np
from PIL import Image

from studio.drawing.lettering.type import rasterised
from studio.drawing.notation.engraved_places import SVG
from studio.drawing.notation.engraving import Engraving
from studio.drawing.themes.contrast import Colour

_LINK = "{http://www.w3.org/1999/xlink}href"

REACH = 3.5
"""Staff spaces to either side of a note's head within which its accidentals, dots and flags lie."""


def ink(
    engraving: Engraving, space: float, colour: Colour, lit: Iterable[str] = (), accent: Colour | None = None
) -> Image.Image:
    """The engraving as an RGBA picture, `space` pixels between two staff lines.

    Notes whose id is in `lit` are drawn in `accent`, everything else in `colour`.
    """
    size = (max(1, round(engraving.width * space)), max(1, round(engraving.height * space)))
    picture = _filled(engraving.svg, size, colour)
    shining = frozenset(lit)
    stand = [(head.id, head.x * space) for head in engraving.heads if head.id in shining]
    if not stand or accent is None:
        return picture
    picture = picture.copy()
    for identity, x in stand:
        left, right = max(0, int(x - REACH * space)), min(size[0], int(x + REACH * space) + 1)
        found = _shape(engraving.svg, size, identity, left, right)
        if found is not None:
            shape, dx, dy = found
            _tint(picture, shape, left + dx, dy, accent)
    return picture


def _tint(picture: Image.Image, shape: Image.Image, left: int, top: int, accent: Colour) -> None:
    """Colour what `shape` covers of the ink, as deep as it covers it; the ink's own edge stays as it is."""
    box = (left, top, left + shape.width, top + shape.height)
    there = picture.crop(box)
    covered = np.asarray(shape, dtype=np.float32) / np.maximum(np.asarray(there.getchannel("A")), 1)
    depth = Image.fromarray((np.minimum(covered, 1.0) * 255).astype(np.uint8))
    coloured = Image.merge("RGBA", [*(Image.new("L", shape.size, c) for c in accent), there.getchannel("A")])
    picture.paste(Image.composite(coloured, there, depth), box[:2])


@lru_cache(maxsize=16)
def _filled(svg: str, size: tuple[int, int], colour: Colour) -> Image.Image:
    parsed = _parsed(svg)
    root = _with(parsed, list(parsed))
    for paint in ("fill", "color"):
        root.set(paint, "#{:02x}{:02x}{:02x}".format(*colour))
    return _rasterised(root, size, 0, size[0])


@lru_cache(maxsize=4096)
def _shape(
    svg: str, size: tuple[int, int], identity: str, left: int, right: int
) -> tuple[Image.Image, int, int] | None:
    """What one note covers, as a mask, and where it begins in the columns from `left` up to `right`."""
    parsed = _parsed(svg)
    lone = _alone(parsed, identity)
    if lone is None:
        return None
    alpha = _rasterised(_with(parsed, lone), size, left, right).getchannel("A")
    box = alpha.getbbox()
    return None if box is None else (alpha.crop(box), box[0], box[1])


def _alone(root: ElementTree.Element, identity: str) -> list[ElementTree.Element] | None:
    """The children of the drawing with one note in it and the glyphs that it uses."""
    definition = next(e for e in root.iter(f"{{{SVG}}}svg") if e.get("class") == "definition-scale")
    margin = next(e for e in definition.iter(f"{{{SVG}}}g") if e.get("class") == "page-margin")
    note = next((e for e in margin.iter(f"{{{SVG}}}g") if e.get("id") == identity), None)
    if note is None:
        return None
    used = {use.get(_LINK, "")[1:] for use in note.iter(f"{{{SVG}}}use")}
    glyphs = ElementTree.Element(f"{{{SVG}}}defs")
    for defs in root.findall(f"{{{SVG}}}defs"):
        glyphs.extend(glyph for glyph in defs if glyph.get("id") in used)
    return [*root.findall(f"{{{SVG}}}style"), glyphs, _with(definition, [_with(margin, [note])])]


def _with(element: ElementTree.Element, children: list[ElementTree.Element]) -> ElementTree.Element:
    """The same element with other children; the parsed drawing itself is never changed."""
    made = ElementTree.Element(element.tag, dict(element.attrib))
    made.extend(children)
    return made


def _rasterised(root: ElementTree.Element, size: tuple[int, int], left: int, right: int) -> Image.Image:
    """The columns from `left` up to `right` of the drawing at `size`."""
    root.set("width", str(size[0]))
    root.set("height", str(size[1]))
    drawn = ElementTree.tostring(root, encoding="unicode")
    return rasterised(f'<g transform="translate({-left} 0)">{drawn}</g>', right - left, size[1])


@lru_cache(maxsize=32)
def _parsed(svg: str) -> ElementTree.Element:
    ElementTree.register_namespace("", SVG)
    return ElementTree.fromstring(svg)

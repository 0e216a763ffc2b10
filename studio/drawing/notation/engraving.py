"""Engraved notation: MusicXML in, systems of music out, with the place of every note.

Verovio sets the music and knows beams, stems, accidentals and spacing. Words are left to
`studio.drawing.lettering.type`, because text inside the engraving would need a font of the machine.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import accumulate

from studio.drawing.lettering.type import rasterised
from studio.drawing.notation.engraved_places import (
    SPACE,
    SVG,
    FretNumber,
    NoteHead,
    bar_starts,
    frets,
    heads,
    staff_lines,
)
from studio.drawing.notation.open_ties import held_over, with_open_ties

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
    "minLastJustification": 0.0,  # every system is as wide as it is asked to be
    "spacingLinear": 0.22,
    "spacingStaff": 6,
    "spacingBraceGroup": 9,
    "staffLineWidth": 0.18,
    "stemWidth": 0.24,
    "barLineWidth": 0.3,
    "svgViewBox": True,
    "svgAdditionalAttribute": ["note@pname", "note@oct", "note@loc"],  # what a drawn note says it is
}
"""Lines are a little stronger than on paper, so that they survive a phone's size."""

_WIDEST = 5_500
"""Verovio's units (a tenth of its own drawing's) across which a system may run at most: more is not allowed."""

_BRACE = 2.5
"""Staff spaces at the left in which Verovio draws the brace of a grand staff, before its own place 0."""

_WORDS = {"label", "labelAbbr", "verse", "harm", "tempo", "dir", "mNum"}


@dataclass(frozen=True)
class Engraving:
    """One system of music. Sizes and places are in staff spaces; `svg` has ids on its notes.

    `starts` is where the music of each bar begins, be it a note or a rest; `frets` are the numbers of
    tablature, which are set in our own type.
    """

    width: float
    height: float
    lines: tuple[float, ...]  # the staff lines, from the top
    heads: tuple[NoteHead, ...]
    starts: tuple[float, ...]
    svg: str
    frets: tuple[FretNumber, ...] = ()

    @property
    def bars(self) -> int:
        """How many bars the system holds."""
        return len(self.starts)

    @property
    def places(self) -> tuple[NoteHead, ...]:
        """Where notes stand, as heads and as numbers."""
        return (*self.heads, *(NoteHead(fret.id, fret.x, fret.y) for fret in self.frets))


@lru_cache(maxsize=64)
def engrave(musicxml: str, across: float, bars: tuple[int, ...] = ()) -> tuple[Engraving, ...]:
    """Set `musicxml` in systems `across` staff spaces wide, broken at bar lines.

    `bars` is how many bars stand in each system; without it there are as many systems as it takes. The same
    text always gives the same drawing. Raises ValueError when Verovio cannot read it.
    """
    text = _unnamed(musicxml)
    brace = _BRACE if "<staves>" in musicxml else 0.0
    width = max(100, round((across - brace) * SPACE))
    return _set(_broken(text, bars) if bars else text, width, "encoded" if bars else "auto")


@lru_cache(maxsize=64)
def unbroken(musicxml: str) -> Engraving:
    """All of `musicxml` in one system, as wide as it is by nature. Raises ValueError as `engrave` does."""
    return _set(_unnamed(musicxml), _WIDEST, "none")[0]


def _unnamed(musicxml: str) -> str:
    """Without the names of parts, which would indent the first system; the callout has its own words."""
    root = ElementTree.fromstring(musicxml)
    for listed in root.iter("score-part"):
        for element in list(listed):
            if element.tag.startswith(("part-name", "part-abbreviation")):
                element.clear()
    return ElementTree.tostring(root, encoding="unicode")


def _broken(musicxml: str, bars: Sequence[int]) -> str:
    """The same notation with a page turn after each so many bars."""
    root, turns = ElementTree.fromstring(musicxml), set(accumulate(bars))
    for part in root.iter("part"):
        for number, measure in enumerate(part.findall("measure")):
            if number in turns:
                measure.insert(0, ElementTree.Element("print", {"new-page": "yes"}))
    return ElementTree.tostring(root, encoding="unicode")


def _set(musicxml: str, width: int, breaks: str) -> tuple[Engraving, ...]:
    import verovio

    verovio.enableLog(verovio.LOG_OFF)  # bars cut out of a song leave ties open; that is no news
    toolkit = verovio.toolkit()
    toolkit.setOptions({**_OPTIONS, "breaks": breaks, "pageWidth": width})
    if breaks == "none":
        toolkit.setOptions({"adjustPageWidth": True})
    if not toolkit.loadData(musicxml):
        raise ValueError("this notation cannot be engraved: the engraver does not read it.")
    if held := held_over(musicxml):
        toolkit.loadData(with_open_ties(toolkit.getMEI(), held))
    return tuple(_read(toolkit.renderToSVG(page)) for page in range(1, toolkit.getPageCount() + 1))


def _read(svg: str) -> Engraving:
    ElementTree.register_namespace("", SVG)
    root = ElementTree.fromstring(svg)
    definition = next(e for e in root.iter(f"{{{SVG}}}svg") if e.get("class") == "definition-scale")
    definition.set("color", "inherit")
    scale = SPACE * 10
    numbers = tuple(frets(definition, scale))
    _strip_words(root)
    _, _, width, height = (float(n) for n in definition.get("viewBox", "0 0 1 1").split())
    braced = any(group.get("class") == "grpSym" for group in definition.iter(f"{{{SVG}}}g"))
    before = _BRACE * scale if braced else 0.0
    above, width, height = _trimmed(root, definition, (width, height), before)
    lines = sorted(set(staff_lines(definition)))
    right, down = before / scale, above / scale
    return Engraving(
        width / scale,
        height / scale,
        tuple(line / scale - down for line in lines),
        tuple(replace(head, x=head.x + right, y=head.y - down) for head in heads(definition, scale)),
        tuple(start / scale + right for start in bar_starts(definition)),
        ElementTree.tostring(root, encoding="unicode"),
        tuple(replace(number, x=number.x + right, y=number.y - down) for number in numbers),
    )


def _trimmed(
    root: ElementTree.Element, definition: ElementTree.Element, size: tuple[float, float], before: float
) -> tuple[float, float, float]:
    """Cut the empty paper around the ink off, and show `before` units more at the left.

    Returns how much went above, and the width and height that are left.
    """
    width, height = size
    for element in (root, definition):  # whole pixels must not make it smaller and move it to the middle
        element.set("preserveAspectRatio", "none")
    coarse = 3.0 / (SPACE * 10)  # three pixels to a staff space
    look = rasterised(
        ElementTree.tostring(root, encoding="unicode"), round(width * coarse), round(height * coarse)
    )
    box = look.getchannel("A").getbbox() or (0, 0, *look.size)
    above = max(0.0, (box[1] - 2) / coarse)
    wide = min(width, (box[2] + 1) / coarse) + before
    tall = min(height, (box[3] + 2) / coarse) - above
    definition.set("viewBox", f"{-before:g} {above:g} {wide:g} {tall:g}")
    root.set("viewBox", f"0 0 {wide / 10:g} {tall / 10:g}")
    return above, wide, tall


def _strip_words(root: ElementTree.Element) -> None:
    for parent in list(root.iter()):
        for child in list(parent):
            words = child.tag == f"{{{SVG}}}text" or child.get("class") in _WORDS
            if words or child.tag == f"{{{SVG}}}desc" or "placeholder" in (child.get("class") or ""):
                parent.remove(child)


def systems_of(total: int, count: int, pickup: bool = False) -> tuple[int, ...]:
    """`total` bars shared out evenly over `count` systems, the longer ones first; a pickup counts for nothing.

    >>> systems_of(7, 2), systems_of(9, 2, pickup=True)
    ((4, 3), (5, 4))
    """
    whole = total - pickup
    each, longer = divmod(whole, count)
    found = [each + (number < longer) for number in range(count)]
    found[0] += pickup
    return tuple(bars for bars in found if bars)


def first_bar_is_pickup(musicxml: str) -> bool:
    """Whether the first bar is one that leads in, number 0."""
    return re.search(r"<measure\b[^>]*?number=\"0\"", musicxml) is not None

"""Where things stand in what Verovio drew: note heads, the starts of bars, staff lines."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from dataclasses import dataclass

from studio.drawing.lettering.outlines import engraved_width

SPACE = 18.0
"""Verovio's own units (of the definition scale, divided by ten) between two staff lines at scale 100."""

SVG = "http://www.w3.org/2000/svg"
_LINK = "{http://www.w3.org/1999/xlink}href"

_AFTER_BAR_LINE = 2.0
"""Staff spaces from a bar line, or from the last sign before the music, to where a resting bar begins."""


@dataclass(frozen=True)
class NoteHead:
    """Where a note stands: middle of its head, in staff spaces from the left and the top of the engraving."""

    id: str
    x: float
    y: float


def heads(definition: ElementTree.Element, scale: float) -> Iterator[NoteHead]:
    for note in definition.iter(f"{{{SVG}}}g"):
        if note.get("class", "").split()[:1] != ["note"]:
            continue
        head = next((g for g in note.iter() if g.get("class") == "notehead"), None)
        use = head.find(f".//{{{SVG}}}use") if head is not None else None
        if use is None:
            continue
        found = re.search(
            r"translate\(([-\d.]+)[ ,]+([-\d.]+)\)\s*scale\(([-\d.]+)", use.get("transform", "")
        )
        if found:
            x, y, size = (float(number) for number in found.groups())
            wide = engraved_width(use.get(_LINK, "")[1:5]) * size
            yield NoteHead(note.get("id", ""), (x + wide / 2) / scale, y / scale)


def bar_starts(definition: ElementTree.Element) -> Iterator[float]:
    """Where each bar's music begins: with its first note or rest; after its bar line where it rests throughout."""
    left = max(
        (x for kind in ("clef", "keySig", "meterSig") for x in _places_of(definition, kind)), default=0.0
    )
    for bar in definition.iter(f"{{{SVG}}}g"):
        if bar.get("class") != "measure":
            continue
        rests_throughout = any(True for _ in _places_of(bar, "mRest"))
        music = [x for kind in ("note", "rest") for x in _places_of(bar, kind)]
        after_line = left + _AFTER_BAR_LINE * SPACE * 10
        yield after_line if rests_throughout else min(music, default=after_line)
        left = max(_bar_lines(bar), default=left)


def _places_of(group: ElementTree.Element, kind: str) -> Iterator[float]:
    for element in group.iter(f"{{{SVG}}}g"):
        if element.get("class", "").split()[:1] == [kind]:
            for use in element.iter(f"{{{SVG}}}use"):
                if found := re.search(r"translate\(([-\d.]+)", use.get("transform", "")):
                    yield float(found[1])


def _bar_lines(bar: ElementTree.Element) -> Iterator[float]:
    for element in bar.iter(f"{{{SVG}}}g"):
        if element.get("class", "").startswith("barLine"):
            for path in element.iter(f"{{{SVG}}}path"):
                if found := re.match(r"M([-\d.]+)", path.get("d", "")):
                    yield float(found[1])


def staff_lines(definition: ElementTree.Element) -> Iterator[float]:
    for staff in definition.iter(f"{{{SVG}}}g"):
        if staff.get("class") == "staff":
            for path in staff.findall(f"{{{SVG}}}path"):
                found = re.match(r"M[-\d.]+ ([-\d.]+) L", path.get("d", ""))
                if found:
                    yield float(found[1])

"""Where things stand in what Verovio drew: note heads, fret numbers, the starts of bars, staff lines."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from dataclasses import dataclass

from studio.drawing.lettering.accidentals import engraved_width

SPACE = 18.0
"""Verovio's own units (of the definition scale, divided by ten) between two staff lines at scale 100."""

SVG = "http://www.w3.org/2000/svg"
_LINK = "{http://www.w3.org/1999/xlink}href"
_PLACED = re.compile(r"translate\(([-\d.]+)[ ,]+([-\d.]+)\)\s*scale\(([-\d.]+)")

_AFTER_BAR_LINE = 2.0
"""Staff spaces from a bar line, or from the last sign before the music, to where a resting bar begins."""

_DIGIT_RISE = 0.33
"""How far the middle of a fret number lies over its baseline, in sizes of its type."""


@dataclass(frozen=True)
class NoteHead:
    """Where a note stands: middle of its head, in staff spaces from the left and the top of the engraving."""

    id: str
    x: float
    y: float


@dataclass(frozen=True)
class FretNumber:
    """A fret of tablature: the middle of its number, in staff spaces, and how tall its type is."""

    id: str
    x: float
    y: float
    text: str
    size: float


def heads(definition: ElementTree.Element, scale: float) -> Iterator[NoteHead]:
    """Every note head, in the order of the score."""
    for note in _notes(definition):
        head = next((g for g in note.iter() if g.get("class") == "notehead"), None)
        use = head.find(f".//{{{SVG}}}use") if head is not None else None
        if use is None:
            continue
        if found := _PLACED.search(use.get("transform", "")):
            x, y, size = (float(number) for number in found.groups())
            wide = engraved_width(use.get(_LINK, "")[1:5]) * size
            yield NoteHead(note.get("id", ""), (x + wide / 2) / scale, y / scale)


def frets(definition: ElementTree.Element, scale: float) -> Iterator[FretNumber]:
    """Every fret number of tablature, in the order of the score."""
    for note in _notes(definition):
        text = note.find(f"{{{SVG}}}text")
        words = text.find(f"{{{SVG}}}tspan") if text is not None else None
        if text is None or words is None:
            continue
        size = float(words.get("font-size", "0").removesuffix("px"))
        x, baseline = float(text.get("x", "0")), float(text.get("y", "0"))
        middle = (baseline - _DIGIT_RISE * size) / scale
        yield FretNumber(note.get("id", ""), x / scale, middle, words.text or "", size / scale)


def _notes(definition: ElementTree.Element) -> Iterator[ElementTree.Element]:
    for group in definition.iter(f"{{{SVG}}}g"):
        if group.get("class", "").split()[:1] == ["note"]:
            yield group


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
        if element.get("class", "").split()[:1] != [kind]:
            continue
        for use in element.iter(f"{{{SVG}}}use"):
            if found := re.search(r"translate\(([-\d.]+)", use.get("transform", "")):
                yield float(found[1])
        for text in element.iter(f"{{{SVG}}}text"):  # a fret number, set around its middle
            if kind == "note" and text.get("x"):
                yield float(text.get("x", "0")) - SPACE * 5


def _bar_lines(bar: ElementTree.Element) -> Iterator[float]:
    for element in bar.iter(f"{{{SVG}}}g"):
        if element.get("class", "").startswith("barLine"):
            for path in element.iter(f"{{{SVG}}}path"):
                if found := re.match(r"M([-\d.]+)", path.get("d", "")):
                    yield float(found[1])


def staff_lines(definition: ElementTree.Element) -> Iterator[float]:
    """The heights of the staff lines. A line of tablature that stops at its numbers comes in several pieces."""
    for staff in definition.iter(f"{{{SVG}}}g"):
        if staff.get("class") == "staff":
            for path in staff.findall(f"{{{SVG}}}path"):
                found = re.match(r"M[-\d.]+ ([-\d.]+) L", path.get("d", ""))
                if found:
                    yield float(found[1])

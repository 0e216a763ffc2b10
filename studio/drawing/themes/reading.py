"""From what a theme file says to a theme, with a complaint for each thing that cannot be used."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import partial
from math import ceil
from typing import Any

from studio.drawing.lettering.fonts import listed
from studio.drawing.themes.contrast import Colour
from studio.drawing.themes.judging import TEXT_CONTRAST
from studio.drawing.themes.values import SMALLEST, Colours, Sizes, Theme, Timing, Weights, names
from studio.project.checking import Findings, unknown_key
from studio.project.episode_values import Canvas
from studio.project.marks import ValuePath
from studio.timeline.layout import NoRoom, region
from studio.timeline.slots import COLUMNS, SLOTS, Slot, SlotName, Slots

GROUPS = ("colours", "panel opacity", "sizes", "weights", "timing", "slots")
SOUGHT = ("based on", "fonts", "least contrast")
"""Keys that a theme may do without."""

APPEAR = (0.12, 0.20)
"""Seconds in which a callout may come or go: calm, and on the beat."""

NARROWEST = 360
"""Pixels on a canvas whose shorter side is 1080: a slot less wide than a third of that holds no line of words (this
program's own rule)."""

_CANVASES = {
    "wide": Canvas(1920, 1080, Fraction(30), ""),
    "tall": Canvas(1080, 1920, Fraction(30), ""),
    "square": Canvas(1080, 1080, Fraction(30), ""),
}
_WHOLE = "the theme"


class Reader:
    """Makes a theme of plain data, and gathers complaints instead of stopping at the first."""

    def __init__(self, findings: Findings) -> None:
        self._findings = findings

    def theme(self, name: str, written: Mapping[str, Any]) -> Theme:
        """The theme; where something is missing or wrong, a value that will do until it is mended."""
        top = self._group((), written, GROUPS, SOUGHT)
        colours = self._group(("colours",), top.get("colours"), names(Colours))
        timing = self._numbers("timing", top, names(Timing), *APPEAR)
        least = top.get("least contrast", str(TEXT_CONTRAST))
        return Theme(
            name=name,
            colours=Colours(*(self._colour(("colours", role), colours.get(role)) for role in names(Colours))),
            panel_opacity=self._number(("panel opacity",), top.get("panel opacity"), 0.5, 1),
            sizes=Sizes(*self._numbers("sizes", top, names(Sizes), SMALLEST, 400)),
            weights=Weights(*self._numbers("weights", top, names(Weights), 200, 900)),
            timing=Timing(*timing),
            slots=self._slots(top.get("slots")),
            fonts=self._fonts(top.get("fonts")),
            least_contrast=self._number(("least contrast",), least, TEXT_CONTRAST, 21),
        )

    def _slots(self, written: Any) -> Slots:
        layouts = self._group(("slots",), written, tuple(_CANVASES))
        found = Slots(*(self._layout(("slots", shape), layouts.get(shape)) for shape in _CANVASES))
        for shape, canvas in _CANVASES.items():
            if self._findings.sound("slots", shape):
                self._check_layout(("slots", shape), found, canvas)
        return found

    def _layout(self, path: ValuePath, written: Any) -> tuple[tuple[SlotName, Slot], ...]:
        layout = self._group(path, written, SLOTS)
        return tuple((name, self._slot((*path, name), layout.get(name))) for name in SLOTS)

    def _slot(self, path: ValuePath, written: Any) -> Slot:
        about = self._group(path, written, ("columns",), ("tallest",))
        columns = about.get("columns")
        found = re.fullmatch(r"(\d{1,2})\s*[-–]\s*(\d{1,2})", str(columns).strip())
        first, last = (int(part) for part in found.groups()) if found else (0, 0)
        if columns is not None and not 1 <= first <= last <= COLUMNS:
            sentence = (
                f"'{columns}' are no columns: write the first and the last, from 1 to {COLUMNS}, as 1-4"
            )
            self._findings.complain((*path, "columns"), sentence)
        tallest = about.get("tallest")
        most = None if tallest is None else int(self._number((*path, "tallest"), tallest, 8, 240))
        return Slot(first, last, most)

    def _check_layout(self, path: ValuePath, slots: Slots, canvas: Canvas) -> None:
        places = slots.on(canvas)
        if places["right"].first <= places["left"].last:
            self._findings.complain(
                (*path, "right"),
                f"right begins at column {places['right'].first} and left ends at {places['left'].last}, so they "
                "would cover each other: let left end before right begins",
            )
        for slot in SLOTS:
            room = region(slot, canvas, slots)
            if isinstance(room, NoRoom) or room.width < NARROWEST:
                count = places[slot].last - places[slot].first + 1
                more = "more" if isinstance(room, NoRoom) else ceil(count * NARROWEST / room.width)
                sentence = (
                    f"{slot} has {count} column{'s' * (count != 1)} and is too narrow on a {path[-1]} canvas for "
                    f"anything to be read: give it {more} columns"
                )
                self._findings.complain((*path, slot), sentence)

    def _fonts(self, written: Any) -> tuple[str, ...]:
        fonts = written or []
        if not isinstance(fonts, list):
            self._findings.complain(
                ("fonts",), "fonts is a list of fonts, as [noto-sans-hebrew, fonts/mine.ttf]"
            )
            return ()
        for number, font in enumerate(fonts):
            if isinstance(font, dict | list) or font == "":
                sentence = "a font is the name of an installed font, or the path of a file, as fonts/mine.ttf"
                self._findings.complain(("fonts", number), sentence)
            elif font is not None:  # else it was complained of already
                self._findings.attempt(("fonts", number), partial(_try, font))
        return tuple(font for font in fonts if isinstance(font, str))

    def _group(
        self, path: ValuePath, written: Any, needed: tuple[str, ...], sought: tuple[str, ...] = ()
    ) -> dict[str, Any]:
        """The keys of a group; a complaint for each that is unknown or missing."""
        where = ".".join(map(str, path)) or _WHOLE
        if written is None:
            return {}  # already said to be missing
        if not isinstance(written, dict):
            self._findings.complain(path, f"{where} is a group of lines such as 'name: value'")
            return {}
        for key in written:
            if key not in (*needed, *sought):
                unknown_key(f"a key of {where}", (*path, key), (*needed, *sought), self._findings)
        self._lacking(path, where, [key for key in needed if key not in written])
        return {key: written[key] for key in (*needed, *sought) if key in written}

    def _lacking(self, path: ValuePath, where: str, keys: list[str]) -> None:
        """A complaint that names all keys that a group lacks; none for what was mistyped or has no base."""
        broken = self._findings.broken
        lost = [key for key in keys if (*path, key) not in broken]
        if lost and ("based on",) not in broken:
            named = ", ".join(f"'{key}'" for key in lost)
            sentence = (
                f"{where} lacks {named}: add what is missing, or let the file begin with 'based on: slate'"
            )
            self._findings.lacks(path, sentence)
        broken.update((*path, key) for key in keys)

    def _numbers(
        self, group: str, top: Mapping[str, Any], expected: tuple[str, ...], least: float, most: float
    ) -> list[float]:
        found = self._group((group,), top.get(group), expected)
        return [self._number((group, role), found.get(role), least, most) for role in expected]

    def _number(self, path: ValuePath, written: Any, least: float, most: float) -> float:
        if written is None:
            return least
        if not isinstance(written, str) or not re.fullmatch(r"-?\d{1,6}(\.\d{1,6})?", written):
            self._findings.complain(path, f"{_value(path, written)}: write a number")
            return least
        value = float(written)
        if not least <= value <= most:
            self._findings.complain(path, f"{_value(path, written)}: it must be from {least:g} to {most:g}")
        return value

    def _colour(self, path: ValuePath, written: Any) -> Colour:
        if written is None:
            return 0, 0, 0
        found = re.fullmatch(r"#([0-9a-fA-F]{2})([0-9a-fA-F]{2})([0-9a-fA-F]{2})", str(written))
        if not found:
            why = "" if written else ", as YAML takes # alone for the beginning of a remark"
            sentence = f'{_value(path, written)}: write a colour as "#rrggbb", in quotes{why}'
            self._findings.complain(path, sentence)
            return 0, 0, 0
        red, green, blue = (int(part, 16) for part in found.groups())
        return red, green, blue


def _try(font: str) -> None:
    """Raises FontError when a font cannot be had."""
    listed(font, 400)


def _value(path: ValuePath, written: Any) -> str:
    said = f"'{written}'" if written and isinstance(written, str) else "empty"
    return (
        f"{'.'.join(map(str, path))} is {said if not isinstance(written, dict | list) else 'no single value'}"
    )

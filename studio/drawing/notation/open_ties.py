"""Ties of notes that are held into the bars that are engraved, or out of them.

MusicXML can only tie two notes that are both there, and Verovio draws neither a tie from before the first note nor
one to after the last. MEI, Verovio's own format, can: there a tie may begin or end at a moment of a bar.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass

_HEAD_ROOM = 0.2
"""Beats after the bar line, before the first of them, at which a tie from before comes out of it."""


@dataclass(frozen=True)
class Held:
    """A note that is held over an edge: its id, its staff, and its place there, in steps above C0."""

    id: str
    staff: str
    height: int


@dataclass(frozen=True)
class HeldOver:
    """Notes that are held from before the first bar, and those that are held beyond the last, with
    the last bar's number of beats as its meter counts them."""

    before: tuple[Held, ...] = ()
    beyond: tuple[Held, ...] = ()
    beats: int = 4

    def __bool__(self) -> bool:
        return bool(self.before or self.beyond)


def held_over(musicxml: str) -> HeldOver:
    """Which notes of a MusicXML text are held over its edges.

    A note that ends a tie and is the first of its kind (its id has no "-t1") was struck before; one that is let
    ring in the last bar goes on.
    """
    before, beyond, beats = [], [], 4
    root = ElementTree.fromstring(musicxml)
    for part in root.findall("part"):
        for measure in part.findall("measure"):
            if written := measure.findtext("attributes/time/beats"):
                beats = int(written)
            for note in measure.findall("note"):
                ties, identity = {tie.get("type") for tie in note.findall("tie")}, note.get("id", "")
                if "stop" in ties and "-" not in identity:
                    before.append(_held(note))
                if "let-ring" in ties:
                    beyond.append(_held(note))
    return HeldOver(tuple(before), tuple(beyond), beats)


def _held(note: ElementTree.Element) -> Held:
    height = 7 * int(note.findtext("pitch/octave", "0")) + "CDEFGAB".index(note.findtext("pitch/step", "C"))
    return Held(note.get("id", ""), note.findtext("staff", "1"), height)


def with_open_ties(mei: str, held: HeldOver) -> str:
    """The MEI text with a tie into each note that was struck before, and one out of each that goes on."""
    text = re.sub(r"<lv [^>]*/>", "", mei)
    into = "".join(
        f'<tie staff="{one.staff}" tstamp="{_HEAD_ROOM}" endid="#{one.id}"{_curve(one, held.before)}/>'
        for one in held.before
    )
    text = re.sub(r"(<measure\b[^>]*>)", lambda found: found[0] + into, text, count=1)
    out = "".join(
        f'<tie staff="{one.staff}" startid="#{one.id}" tstamp2="0m+{held.beats + 1}"/>' for one in held.beyond
    )
    end = text.rfind("</measure>")
    return text[:end] + out + text[end:]


def _curve(one: Held, all_held: tuple[Held, ...]) -> str:
    """Where several notes of a staff are held, the ties of the upper ones curve up and of the lower ones down."""
    heights = sorted(other.height for other in all_held if other.staff == one.staff)
    if len(heights) < 2:
        return ""
    upper = heights.index(one.height) * 2 >= len(heights)
    return f' curvedir="{"above" if upper else "below"}"'

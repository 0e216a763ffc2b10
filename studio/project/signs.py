"""What music21 does for notation that is written by code: rests, beams, tuplets, and MusicXML out of it."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from collections.abc import Sequence
from fractions import Fraction
from typing import Any


def exact(quarters: Fraction) -> Any:
    """A length as music21 counts it: a float, or a Fraction where a float would not be exact."""
    from music21.common.numberTools import opFrac

    return opFrac(quarters)


def writable(length: Fraction) -> Fraction:
    """The length itself where notation can write it, else the nearest on a grid of 1/8, 1/6 or 1/4."""
    from music21 import duration

    if duration.Duration(exact(length)).type != "inexpressible":
        return length
    grids = [max(Fraction(round(length * part), part), Fraction(1, part)) for part in (8, 6, 4)]
    return min(grids, key=lambda grid: abs(grid - length))


def fill_with_rests(
    voice: Any, edges: Sequence[tuple[Fraction, Fraction]], length: Fraction, *, hidden: bool, whole: bool
) -> None:
    """Rests where nothing stands between `edges`, (start, end) of each sign in quarters from the bar line.

    `hidden` rests take room and have no ink; with `whole` an empty bar has one rest for all of it.
    """
    from music21 import note

    at = Fraction(0)
    for start, end in [*edges, (length, length)]:
        if start > at:
            rest = note.Rest(quarterLength=exact(writable(start - at)))
            if whole and not edges:
                rest.fullMeasure = True
            if hidden:
                rest.style.hideObjectOnPrint = True
            voice.insert(exact(at), rest)
        at = max(at, end)


def beam(measure: Any, meter_text: str) -> None:
    """Cut lengths that one sign cannot show (tied on), then beam what is short and bracket tuplets."""
    from music21 import exceptions21, meter

    signature = meter.TimeSignature(meter_text)
    for voice in measure.voices or [measure]:
        voice.splitAtDurations()
        signs = list(voice.notesAndRests)
        try:
            beams = signature.getBeams(signs, measureStartOffset=measure.paddingLeft)
        except exceptions21.Music21Exception:  # a rhythm with no usual beaming is left with flags
            continue
        for sign, beamed in zip(signs, beams, strict=False):
            if beamed is not None and not sign.isRest:
                sign.beams = beamed
        _bracket_tuplets(signs)


def _bracket_tuplets(signs: Sequence[Any]) -> None:
    """A bracket for each group of a tuplet, which ends where a plain length of time is full again.

    A swung pair, a quarter and an eighth in the time of one quarter, is a group; so are three eighths.
    """
    group: list[Any] = []
    for sign in signs:
        if not sign.duration.tuplets:
            group = []
            continue
        group.append(sign)
        length = sum((Fraction(one.quarterLength) for one in group), Fraction(0))
        if (
            length.denominator & (length.denominator - 1) == 0
        ):  # halves, quarters, eighths of a beat: no thirds
            _bracket(group)
            group = []


def _bracket(group: Sequence[Any]) -> None:
    """Mark where a group begins and ends. One that is partly hidden has neither number nor bracket."""
    quiet = any(sign.isRest and sign.style.hideObjectOnPrint for sign in group)
    down = all(sign.isRest or sign.stemDirection == "down" for sign in group)
    for place, sign in enumerate(group):
        (tuplet, *_) = sign.duration.tuplets
        tuplet.type = None
        if len(group) > 1 and place in (0, len(group) - 1):
            tuplet.type = "start" if place == 0 else "stop"
        if quiet:
            tuplet.tupletActualShow, tuplet.bracket = None, False
        if down:
            tuplet.placement = "below"


def exported(score: Any) -> str:
    """A score as MusicXML, the same each time: notes, clefs and bars as they are, nothing made up."""
    from music21.musicxml.m21ToXml import GeneralObjectExporter

    exporter = GeneralObjectExporter(score)
    exporter.makeNotation = False
    return _tidy(exporter.parse().decode("utf-8"))


def _tidy(text: str) -> str:
    """Without what changes from run to run (dates, random ids); each note head gets an id of its own."""
    root = ElementTree.fromstring(text)
    for name in ("movement-title", "identification", "defaults"):
        for element in root.findall(name):
            root.remove(element)
    for number, part in enumerate(root.iter("score-part"), 1):
        part.set("id", f"P{number}")
    for number, part in enumerate(root.findall("part"), 1):
        part.set("id", f"P{number}")
    seen: dict[str, int] = {}
    for element in root.iter("note"):
        head = element.get("id")
        if head is not None:
            seen[head] = seen.get(head, -1) + 1
            element.set("id", f"{head}-t{seen[head]}" if seen[head] else head)
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(root, encoding="unicode")

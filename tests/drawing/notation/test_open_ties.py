from __future__ import annotations

import xml.etree.ElementTree as ElementTree

from studio.drawing.notation.engraved_places import SVG
from studio.drawing.notation.engraving import Engraving, unbroken
from studio.drawing.notation.open_ties import held_over
from studio.music.note import Part
from studio.project.written_part import WrittenPart

from ..small_song import TIME, bars, notes

PART = WrittenPart(Part("held", notes("0 C5 2, 2 D5 4, 6 E5 2, 8 G4 8, 8 B4 8, 16 A4 4")), TIME)


def engraved(first: int, last: int) -> tuple[str, Engraving]:
    text = PART.musicxml(bars(first, last))
    return text, unbroken(text)


def ties(system: Engraving) -> list[list[float]]:
    """From where to where each drawn tie runs, in Verovio's units."""
    root = ElementTree.fromstring(system.svg)
    found = []
    for group in root.iter(f"{{{SVG}}}g"):
        if group.get("class") == "tie":
            for path in group.iter(f"{{{SVG}}}path"):
                numbers = path.get("d", "").replace("M", "").replace("C", " ").split()
                xs = [float(number.split(",")[0]) for number in numbers]
                found.append([min(xs), max(xs)])
    return sorted(found)


def test_a_note_that_was_struck_before_has_a_tie_that_leads_into_it() -> None:
    text, system = engraved(2, 2)
    assert [held.id for held in held_over(text).before] == ["n1"]
    ((left, right),) = ties(system)
    head = next(head for head in system.heads if head.id == "n1")
    assert left / 180 < head.x and abs(right / 180 - head.x) < 1.2


def test_a_note_that_goes_on_has_a_tie_that_leads_out_to_the_bar_line() -> None:
    text, system = engraved(1, 1)
    assert [held.id for held in held_over(text).beyond] == ["n1"]
    ((left, right),) = ties(system)
    head = next(head for head in system.heads if head.id == "n1")
    assert left / 180 > head.x and system.width - right / 180 < 1


def test_of_two_notes_that_are_held_both_have_their_tie() -> None:
    text, system = engraved(4, 4)
    assert {held.id for held in held_over(text).before} == {"n3", "n4"}
    assert len(ties(system)) == 2


def test_within_the_bars_nothing_is_added() -> None:
    text, system = engraved(3, 5)
    assert not held_over(text)
    assert len(ties(system)) == 2  # G4 and B4 over the bar line

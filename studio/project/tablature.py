"""Tablature: which fret of which string sounds each note, as a staff of its own under the notes.

MusicXML 4.0 says it with a TAB clef, the tuning of each line (`staff-details`) and a `string` and a `fret` on each
note; strings are counted there from the highest line down, and lines from the lowest up.
"""

from __future__ import annotations

import copy
import xml.etree.ElementTree as ElementTree
from collections.abc import Mapping
from dataclasses import dataclass

from studio.music.pitch import Pitch
from studio.project.written_part import ClefName


@dataclass(frozen=True)
class Tablature:
    """`strings` are the open strings without the capo, low side first; `places` says for each note of the part,
    by its number, which string (0 is the low side) and which fret, counted from the capo. `clef` is the one that
    players of the instrument read, None to leave the notes in that of the part."""

    strings: tuple[Pitch, ...]
    capo: int
    places: Mapping[int, tuple[int, int]]
    clef: ClefName | None = None


_CLEFS: dict[ClefName, tuple[str, int, int]] = {
    "treble": ("G", 2, 0),
    "treble 8vb": ("G", 2, -1),
    "alto": ("C", 3, 0),
    "tenor": ("C", 4, 0),
    "bass": ("F", 4, 0),
    "bass 8vb": ("F", 4, -1),
}
"""Sign, line and octave change of each clef."""

_NOT_IN_TAB = ("accidental", "lyric", "tie", "notehead", "dot", "stem")
"""Children of a note that tablature has no use for."""


def with_tablature(musicxml: str, tab: Tablature, notes: bool = True) -> str:
    """The notation of a part (one staff) with tablature under it, or turned into tablature where not `notes`.

    The number of the note ``n3`` has the id ``n3-f``. A note that is tied on is struck once, so its
    continuations have none; where it was struck before the first bar, its number has the id ``n3-held``.
    """
    root = ElementTree.fromstring(musicxml)
    staff = root.find("part")
    listed = root.find("part-list")
    assert staff is not None and listed is not None
    fretted = _fretted(copy.deepcopy(staff), tab, rhythm=not notes)
    if notes:
        if tab.clef is not None:
            _rewrite_clef(staff, tab.clef)
        fretted.set("id", "P2")
        ElementTree.SubElement(ElementTree.SubElement(listed, "score-part", {"id": "P2"}), "part-name")
        root.append(fretted)
    else:
        place = list(root).index(staff)
        root.remove(staff)
        root.insert(place, fretted)
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + ElementTree.tostring(root, encoding="unicode")


def _rewrite_clef(staff: ElementTree.Element, name: ClefName) -> None:
    """Another clef at the beginning; pitches stay, since MusicXML writes them as they sound under any clef."""
    clef = staff.find("measure/attributes/clef")
    assert clef is not None  # every engraving begins with one
    for child in list(clef):
        clef.remove(child)
    sign, line, octaves = _CLEFS[name]
    ElementTree.SubElement(clef, "sign").text = sign
    ElementTree.SubElement(clef, "line").text = str(line)
    if octaves:
        ElementTree.SubElement(clef, "clef-octave-change").text = str(octaves)


def _fretted(part: ElementTree.Element, tab: Tablature, rhythm: bool) -> ElementTree.Element:
    for number, measure in enumerate(part.findall("measure")):
        attributes = measure.find("attributes")
        if attributes is not None:
            _retune(attributes, tab, opening=number == 0, rhythm=rhythm)
        for sign in measure.findall("note"):
            _fret(sign, tab, rhythm)
        _rejoin(measure)
    return part


def _retune(attributes: ElementTree.Element, tab: Tablature, opening: bool, rhythm: bool) -> None:
    """The TAB clef and the tuning instead of clef and key; the meter only where no staff over it has it."""
    for child in list(attributes):
        if child.tag in ("clef", "key") or (child.tag == "time" and not rhythm):
            attributes.remove(child)
    if not opening:
        return
    clef = ElementTree.SubElement(attributes, "clef")
    ElementTree.SubElement(clef, "sign").text = "TAB"
    ElementTree.SubElement(clef, "line").text = str(max(len(tab.strings) - 1, 1))
    details = ElementTree.SubElement(attributes, "staff-details")
    ElementTree.SubElement(details, "staff-lines").text = str(len(tab.strings))
    for line, pitch in enumerate(tab.strings, 1):
        tuning = ElementTree.SubElement(details, "staff-tuning", {"line": str(line)})
        ElementTree.SubElement(tuning, "tuning-step").text = pitch.name.letter
        if pitch.name.alter:
            ElementTree.SubElement(tuning, "tuning-alter").text = str(pitch.name.alter)
        ElementTree.SubElement(tuning, "tuning-octave").text = str(pitch.octave)
    if tab.capo:
        ElementTree.SubElement(details, "capo").text = str(tab.capo)


def _fret(sign: ElementTree.Element, tab: Tablature, rhythm: bool) -> None:
    """The fret of one note; its own sign is dropped where it is tied to the one before."""
    identity = sign.get("id")
    tied_before = any(tie.get("type") == "stop" for tie in sign.findall("tie"))
    for child in list(sign):
        if child.tag in _NOT_IN_TAB or (child.tag in ("beam", "notations") and not rhythm):
            sign.remove(child)
    for notations in sign.findall("notations"):
        for tied in notations.findall("tied"):
            notations.remove(tied)
    if sign.find("rest") is not None:
        if not rhythm:
            sign.set("print-object", "no")
        return
    if identity is None or (tied_before and "-" in identity):
        sign.set("tied-before", "yes")
        return
    string, fret = tab.places[int(identity[1:].partition("-")[0])]
    sign.set("id", f"{identity}-held" if tied_before else f"{identity}-f")
    technical = ElementTree.SubElement(_child(sign, "notations"), "technical")
    ElementTree.SubElement(technical, "string").text = str(len(tab.strings) - string)
    ElementTree.SubElement(technical, "fret").text = str(fret)
    if not rhythm:
        stem = ElementTree.Element("stem")
        stem.text = "none"
        kind = sign.find("type")
        sign.insert(len(sign) if kind is None else list(sign).index(kind) + 1, stem)


def _rejoin(measure: ElementTree.Element) -> None:
    """Take the notes that are only held out of their chords; where nothing is struck, a silent stretch is left."""
    chord: list[ElementTree.Element] = []
    for sign in [*measure.findall("note"), None]:
        if sign is not None and sign.find("chord") is not None:
            chord.append(sign)
            continue
        _release(measure, chord)
        chord = [] if sign is None else [sign]


def _release(measure: ElementTree.Element, chord: list[ElementTree.Element]) -> None:
    held = [sign for sign in chord if sign.attrib.pop("tied-before", "") == "yes"]
    if not held:
        return
    struck = [sign for sign in chord if sign not in held]
    if not struck:
        rest, *held = held
        rest.set("print-object", "no")
        rest.attrib.pop("id", None)
        for child in list(rest):
            if child.tag in ("pitch", "chord", "notations", "beam"):
                rest.remove(child)
        rest.insert(0, ElementTree.Element("rest"))
    elif (joined := struck[0].find("chord")) is not None:
        struck[0].remove(joined)
    for sign in held:
        measure.remove(sign)


def _child(parent: ElementTree.Element, tag: str) -> ElementTree.Element:
    found = parent.find(tag)
    return ElementTree.SubElement(parent, tag) if found is None else found

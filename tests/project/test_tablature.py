from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from fractions import Fraction

from studio.music.meter import Meter
from studio.music.note import Note, Part
from studio.music.pitch import Pitch
from studio.music.songtime import SongTime
from studio.project.tablature import Tablature, with_tablature
from studio.project.written_part import WrittenPart

F = Fraction
TIME = SongTime(((1, Meter(4, 4)),), ((F(0), F(0)), (F(4), F(2))), F(0))
GUITAR = tuple(Pitch.parse(text) for text in ["E2", "A2", "D3", "G3", "B3", "E4"])


def note(onset: int, length: int, pitch: str) -> Note:
    return Note(F(onset), F(length), Pitch.parse(pitch))


PART = WrittenPart(
    Part("guitar", (note(0, 2, "E2"), note(2, 4, "C3"), note(2, 2, "E3"), note(6, 2, "A2"))),
    TIME,
    ("treble 8vb",),
)
TAB = Tablature(GUITAR, 0, {0: (0, 0), 1: (1, 3), 2: (2, 2), 3: (1, 0)})


def places(text: str) -> dict[str, tuple[str, str]]:
    root = ElementTree.fromstring(text)
    return {
        sign.get("id", ""): (sign.findtext(".//string", ""), sign.findtext(".//fret", ""))
        for sign in root.iter("note")
        if sign.find(".//fret") is not None
    }


def test_strings_are_counted_from_the_highest_as_musicxml_does() -> None:
    """MusicXML 4.0, `string`: 1 is the highest one."""
    found = places(with_tablature(PART.musicxml(TIME.bars(1, 2)), TAB))
    assert found == {"n0-f": ("6", "0"), "n1-f": ("5", "3"), "n2-f": ("4", "2"), "n3-f": ("5", "0")}


def test_a_note_that_is_tied_on_is_struck_once() -> None:
    text = with_tablature(PART.musicxml(TIME.bars(1, 2)), TAB, notes=False)
    assert sum("-t" in identity for identity in places(text)) == 0
    assert [sign.get("print-object") for sign in ElementTree.fromstring(text).iter("note")].count("no") >= 1


def clefs(text: str) -> list[tuple[str | None, ...]]:
    tags = ("sign", "line", "clef-octave-change")
    return [tuple(map(clef.findtext, tags)) for clef in ElementTree.fromstring(text).iter("clef")]


def test_a_guitar_is_read_an_octave_above_its_sound_whatever_clef_suits_its_pitches() -> None:
    """An 8 below the clef (MusicXML 4.0, `clef-octave-change`); the pitches stay as they sound."""
    low = WrittenPart(Part("guitar", PART.part.notes), TIME, ("bass",))
    text = low.musicxml(TIME.bars(1, 1))
    assert clefs(text) == [("G", "2", "-1")]
    assert ElementTree.fromstring(text).findtext(".//pitch/octave") == "2"


def test_a_bass_guitar_has_the_bass_clef_and_others_keep_theirs() -> None:
    def named(name: str) -> list[tuple[str | None, ...]]:
        part = WrittenPart(Part(name, PART.part.notes), TIME, ("treble",))
        return clefs(part.musicxml(TIME.bars(1, 1)))

    assert named("bass guitar") == [("F", "4", "-1")]
    assert named("guitar 2") == named("lead_guitar") == [("G", "2", "-1")]
    assert named("lead") == named("guitarra") == [("G", "2", None)]


def test_the_clef_of_the_tuning_goes_over_the_tablature() -> None:
    low = WrittenPart(Part("riff", PART.part.notes), TIME, ("bass",))
    text = with_tablature(low.musicxml(TIME.bars(1, 2)), replace(TAB, clef="treble 8vb"))
    assert clefs(text) == [("G", "2", "-1"), ("TAB", "5", None)]
    high = with_tablature(PART.musicxml(TIME.bars(1, 2)), replace(TAB, clef="treble"))
    assert clefs(high) == [("G", "2", None), ("TAB", "5", None)]


def test_lines_are_tuned_from_the_lowest_as_musicxml_does() -> None:
    """MusicXML 4.0, `staff-tuning`: line 1 is the lowest one."""
    text = with_tablature(PART.musicxml(TIME.bars(1, 1)), TAB)
    tuned = [
        (line.get("line"), line.findtext("tuning-step"), line.findtext("tuning-octave"))
        for line in ElementTree.fromstring(text).iter("staff-tuning")
    ]
    assert tuned[0] == ("1", "E", "2") and tuned[-1] == ("6", "E", "4")


def test_a_capo_is_said() -> None:
    with_capo = Tablature(GUITAR, 2, TAB.places)
    assert "<capo>2</capo>" in with_tablature(PART.musicxml(TIME.bars(1, 1)), with_capo)


def test_alone_it_takes_the_place_of_the_notes() -> None:
    text = PART.musicxml(TIME.bars(1, 2))
    alone = ElementTree.fromstring(with_tablature(text, TAB, notes=False))
    both = ElementTree.fromstring(with_tablature(text, TAB))
    assert [sign.text for sign in alone.iter("sign")] == ["TAB"]
    assert [sign.text for sign in both.iter("sign")] == ["G", "TAB"]
    assert alone.find(".//time") is not None and len(both.findall(".//time")) == 1


def test_what_was_struck_before_the_first_bar_is_marked_as_held() -> None:
    found = places(with_tablature(PART.musicxml(TIME.bars(2, 2)), TAB))
    assert found == {"n1-held": ("5", "3"), "n3-f": ("5", "0")}
